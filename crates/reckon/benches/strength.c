// The strength kernel for curling in C, operation for operation, as an anchor for the one in Rust.
//
// usage: strength POSES ROUNDS < numbers. The numbers are the kernel's, then low and high length of each ram.
// Prints the best time of a round in nanoseconds a pose, and the sum of all results.
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

typedef struct { double r, z; } vec;
typedef struct { double squares, over_twice, product, sign; vec start, barrel, rod; } corner;
typedef struct { double rod, difference; } ram;
typedef struct { double push, pull; } limit;
typedef struct {
    vec foot;
    double boom, dipper, tip, gravity;
    corner corners[2];
    ram rams[3];
    vec barrel, lever_pin, bucket_pin, to_lever;
    double to_lever_square, over_to_lever_square, lever_square, crank_square, link_square, over_crank_square;
    vec link_on_bucket;
    double shared_side, link_side;
    vec on_dipper;
    double on_shared, on_link_pin;
    vec on_bucket;
    double turning_lever;
    vec on_boom;
    double boom_barrel, mass_from_foot;
    limit limits[3];
} constants;

#define INLINE static inline __attribute__((always_inline))

INLINE vec add(vec a, vec b) { return (vec){a.r + b.r, a.z + b.z}; }
INLINE vec sub(vec a, vec b) { return (vec){a.r - b.r, a.z - b.z}; }
INLINE vec times(vec a, double f) { return (vec){a.r * f, a.z * f}; }
INLINE double dot(vec a, vec b) { return a.r * b.r + a.z * b.z; }
INLINE vec quarter(vec a) { return (vec){-a.z, a.r}; }
INLINE vec turned(vec a, vec u) { return (vec){a.r * u.r - a.z * u.z, a.r * u.z + a.z * u.r}; }
INLINE vec turned_back(vec a, vec u) { return (vec){a.r * u.r + a.z * u.z, a.z * u.r - a.r * u.z}; }

typedef struct { vec along, rod, unit; double lever, swing; } swung_link;

INLINE swung_link swung(const corner *c, double length, vec inner) {
    double over = 1.0 / length;
    double cosine = (c->squares - length * length) * c->over_twice;
    double sine = sqrt(1.0 - cosine * cosine);
    vec along = turned(inner, turned(c->start, (vec){cosine, c->sign * sine}));
    vec rod = turned(c->rod, along);
    vec unit = times(sub(rod, turned(c->barrel, inner)), over);
    return (swung_link){along, rod, unit, c->product * sine * over, unit.r * dot(unit, rod) * over};
}

INLINE double allows(double gravity, double turns, double lever, limit l) {
    double bound = turns * lever < 0.0 ? l.push : -l.pull;
    double force = (gravity - bound * lever) / turns;
    force = turns == 0.0 ? INFINITY : force;
    double size = fabs(lever);
    double thrust = lever < 0.0 ? -gravity : gravity;
    int holds = (thrust <= l.push * size) & (thrust >= -l.pull * size);
    double gone = thrust != thrust ? NAN : -1.0;
    return holds ? force : gone;
}

static __attribute__((noinline)) void run(const constants *restrict given, long count, const double *restrict l1,
                                          const double *restrict l2, const double *restrict l3,
                                          double *restrict tooth_r, double *restrict tooth_z,
                                          double *restrict direction_r, double *restrict direction_z,
                                          double *restrict s1, double *restrict s2, double *restrict s3,
                                          double *restrict moment) {
    const constants k = *given;
    for (long i = 0; i < count; i++) {
        swung_link boom = swung(&k.corners[0], l1[i], (vec){1.0, 0.0});
        swung_link dipper = swung(&k.corners[1], l2[i], boom.along);

        double length = l3[i], over = 1.0 / length, square = length * length;
        double along = (square - k.lever_square + k.to_lever_square) * (0.5 * k.over_to_lever_square);
        double across = k.shared_side * sqrt(square * k.over_to_lever_square - along * along);
        vec shared = add(add(k.barrel, times(k.to_lever, along)), times(quarter(k.to_lever), across));
        vec way = sub(shared, k.bucket_pin);
        double over_way = 1.0 / dot(way, way);
        along = 0.5 + (k.crank_square - k.link_square) * (0.5 * over_way);
        across = k.link_side * sqrt(k.crank_square * over_way - along * along);
        vec crank = add(times(way, along), times(quarter(way), across));
        vec arm = sub(shared, k.lever_pin);
        vec link = sub(way, crank);
        double rate = dot(link, quarter(crank)) / dot(link, quarter(arm));
        vec unit = times(sub(shared, k.barrel), over);
        vec bucket = times(turned_back(crank, k.link_on_bucket), k.over_crank_square);
        double lever3 = dot(unit, quarter(arm)) * rate;

        vec along_bucket = turned(dipper.along, bucket);
        vec to_dipper = times(boom.along, k.boom), to_bucket = times(dipper.along, k.dipper);
        vec tip = times(along_bucket, k.tip);
        vec masses = add(k.on_dipper, times(shared, k.on_shared));
        masses = add(masses, times(add(k.bucket_pin, crank), k.on_link_pin));
        masses = add(masses, turned(k.on_bucket, bucket));
        masses = add(masses, times(unit, k.rams[2].difference));
        double dipper_moment = turned(masses, dipper.along).r + k.rams[1].rod * dipper.rod.r;
        double boom_moment = turned(k.on_boom, boom.along).r + dipper_moment
                             + k.rams[1].difference * dipper.unit.r + k.rams[0].rod * boom.rod.r;
        double swing = turned(unit, dipper.along).r * dot(unit, arm) * over;
        double with_lever = (k.turning_lever + k.rams[2].rod) * turned(arm, dipper.along).r + k.rams[2].difference * swing;
        double g1 = k.gravity * (boom_moment + k.rams[0].difference * boom.swing);
        double g2 = k.gravity * (dipper_moment + k.rams[1].difference * dipper.swing);
        double g3 = k.gravity * (with_lever * rate + k.on_link_pin * turned(crank, dipper.along).r
                                 + turned(k.on_bucket, along_bucket).r);

        vec from_dipper = add(to_bucket, tip);
        vec direction = times(quarter(tip), 1.0 / k.tip);
        vec tooth = add(add(k.foot, to_dipper), from_dipper);
        tooth_r[i] = tooth.r;
        tooth_z[i] = tooth.z;
        direction_r[i] = direction.r;
        direction_z[i] = direction.z;
        s1[i] = allows(g1, dot(direction, quarter(add(to_dipper, from_dipper))), boom.lever, k.limits[0]);
        s2[i] = allows(g2, dot(direction, quarter(from_dipper)), dipper.lever, k.limits[1]);
        s3[i] = allows(g3, dot(direction, quarter(tip)), lever3, k.limits[2]);
        moment[i] = k.boom_barrel + k.mass_from_foot * k.foot.r + boom_moment + k.rams[0].difference * boom.unit.r;
    }
}

static double now(void) {
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return t.tv_sec * 1e9 + t.tv_nsec;
}

int main(int argc, char **argv) {
    if (argc != 3) return 2;
    long count = atol(argv[1]), rounds = atol(argv[2]);
    constants k;
    double *numbers = (double *)&k, ends[6];
    for (size_t i = 0; i < sizeof k / sizeof(double); i++)
        if (scanf("%lf", &numbers[i]) != 1) return 3;
    for (int i = 0; i < 6; i++)
        if (scanf("%lf", &ends[i]) != 1) return 3;
    double *column[11];
    for (int i = 0; i < 11; i++) column[i] = calloc(count, sizeof(double));
    const double strides[3] = {0.6180339887498949, 0.41421356237309503, 0.7320508075688772};
    for (int ram = 0; ram < 3; ram++)
        for (long i = 0; i < count; i++) {
            double share = (double)i * strides[ram];
            share -= floor(share);
            column[ram][i] = ends[2 * ram] + share * (ends[2 * ram + 1] - ends[2 * ram]);
        }
    double best = INFINITY;
    for (long round = 0; round < rounds; round++) {
        double start = now();
        run(&k, count, column[0], column[1], column[2], column[3], column[4], column[5], column[6], column[7],
            column[8], column[9], column[10]);
        double took = (now() - start) / count;
        if (took < best) best = took;
    }
    double sum = 0.0;
    for (int c = 3; c < 11; c++)
        for (long i = 0; i < count; i++) sum += column[c][i];
    printf("%.6f %.17g\n", best, sum);
    return 0;
}
