//! Small dense linear algebra: symmetric matrices, their triangular root, their rank.

/// A symmetric matrix, kept whole.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Symmetric {
    size: usize,
    numbers: Vec<f64>,
}

impl Symmetric {
    /// All zeros.
    pub(super) fn zeros(size: usize) -> Self {
        Symmetric {
            size,
            numbers: vec![0.0; size * size],
        }
    }

    pub(super) fn size(&self) -> usize {
        self.size
    }

    pub(super) fn row(&self, at: usize) -> &[f64] {
        &self.numbers[at * self.size..(at + 1) * self.size]
    }

    pub(super) fn get(&self, row: usize, column: usize) -> f64 {
        self.numbers[row * self.size + column]
    }

    pub(super) fn set(&mut self, row: usize, column: usize, value: f64) {
        self.numbers[row * self.size + column] = value;
        self.numbers[column * self.size + row] = value;
    }

    /// Adds a a' of a vector of which only these places are not zero.
    pub(super) fn add_square(&mut self, sparse: &[(usize, f64)]) {
        for &(row, one) in sparse {
            let start = row * self.size;
            for &(column, other) in sparse {
                self.numbers[start + column] += one * other;
            }
        }
    }

    /// The product with a vector of which only these places are not zero.
    pub(super) fn times(&self, sparse: &[(usize, f64)]) -> Vec<f64> {
        let mut product = vec![0.0; self.size];
        for &(at, value) in sparse {
            for (sum, number) in product.iter_mut().zip(self.row(at)) {
                *sum += value * number;
            }
        }
        product
    }

    /// x of (S M S + damping 1) y = S b, x = S y, with S such that M's diagonal becomes 1: Marquardt's step.
    ///
    /// An unknown that M knows nothing of stays where it is. None where the numbers run away.
    pub(super) fn damped_solution(&self, right: &[f64], damping: f64) -> Option<Vec<f64>> {
        let seen: Vec<usize> = (0..self.size).filter(|i| self.get(*i, *i) > 0.0).collect();
        let n = seen.len();
        let scale: Vec<f64> = seen.iter().map(|i| 1.0 / self.get(*i, *i).sqrt()).collect();
        let mut root = vec![0.0; n * n];
        for i in 0..n {
            for j in 0..=i {
                let done = dot(&root[i * n..i * n + j], &root[j * n..j * n + j]);
                let own = self.get(seen[i], seen[j]) * scale[i] * scale[j] - done;
                root[i * n + j] = if i == j {
                    (own + damping).max(1e-16).sqrt()
                } else {
                    own / root[j * n + j]
                };
            }
        }
        let mut x: Vec<f64> = seen
            .iter()
            .zip(&scale)
            .map(|(at, s)| right[*at] * s)
            .collect();
        for i in 0..n {
            x[i] = (x[i] - dot(&root[i * n..i * n + i], &x[..i])) / root[i * n + i];
        }
        for i in (0..n).rev() {
            x[i] /= root[i * n + i];
            let (before, own) = x.split_at_mut(i);
            for (x, part) in before.iter_mut().zip(&root[i * n..i * n + i]) {
                *x -= part * own[0];
            }
        }
        let mut step = vec![0.0; self.size];
        for ((at, x), s) in seen.iter().zip(&x).zip(&scale) {
            step[*at] = x * s;
        }
        step.iter().all(|x| x.is_finite()).then_some(step)
    }
}

/// The scalar product.
pub(super) fn dot(one: &[f64], other: &[f64]) -> f64 {
    one.iter().zip(other).map(|(a, b)| a * b).sum()
}

/// The scalar product with a vector of which only these places are not zero.
pub(super) fn sparse_dot(sparse: &[(usize, f64)], whole: &[f64]) -> f64 {
    sparse.iter().map(|&(at, value)| value * whole[at]).sum()
}

/// What a matrix of normal equations determines and what not.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Ranked {
    /// The inverse over what is determined; zero in the rows of what was held fast.
    pub(super) inverse: Symmetric,
    /// How the unknowns move together, unseen by any measurement: one vector for each unknown that was held fast.
    pub(super) free: Vec<Vec<f64>>,
}

/// The inverse of a matrix of normal equations as far as it goes, by Cholesky with the largest pivot first.
///
/// The reciprocal of a pivot is the variance of that unknown with the later ones held fast; one whose standard
/// uncertainty is beyond `widest`, or that is lost in rounding, counts as not determined.
pub(super) fn ranked(normal: &Symmetric, widest: f64) -> Ranked {
    let n = normal.size();
    let mut order: Vec<usize> = (0..n).collect();
    let mut root = vec![0.0; n * n];
    let mut left: Vec<f64> = (0..n).map(|i| normal.get(i, i)).collect();
    let mut rank = 0;
    while rank < n {
        let best = (rank..n).max_by(|a, b| left[order[*a]].total_cmp(&left[order[*b]]));
        let Some(best) = best else { break };
        order.swap(rank, best);
        let pin = order[rank];
        let least = (1.0 / (widest * widest)).max(1e-13 * normal.get(pin, pin));
        let known = left[pin] > least;
        if !known {
            break;
        }
        let pivot = left[pin].sqrt();
        root[pin * n + rank] = pivot;
        for &other in &order[rank + 1..] {
            let done = dot(
                &root[other * n..other * n + rank],
                &root[pin * n..pin * n + rank],
            );
            let share = (normal.get(other, pin) - done) / pivot;
            root[other * n + rank] = share;
            left[other] -= share * share;
        }
        rank += 1;
    }
    from_root(&root, &order, rank)
}

/// Inverse and free movements from the rows of the root, one for each unknown, in the order they were taken.
fn from_root(root: &[f64], order: &[usize], rank: usize) -> Ranked {
    let n = order.len();
    // Columns of the inverse of the triangle, then their products.
    let mut columns = vec![vec![0.0; rank]; rank];
    for (c, column) in columns.iter_mut().enumerate() {
        for i in c..rank {
            let row = &root[order[i] * n..order[i] * n + i];
            let unit = if i == c { 1.0 } else { 0.0 };
            column[i] = (unit - dot(&row[c..], &column[c..i])) / root[order[i] * n + i];
        }
    }
    let mut inverse = Symmetric::zeros(n);
    for a in 0..rank {
        for b in 0..=a {
            inverse.set(order[a], order[b], dot(&columns[a][a..], &columns[b][a..]));
        }
    }
    let free = order[rank..]
        .iter()
        .map(|&fast| {
            let row = &root[fast * n..fast * n + rank];
            let mut moves = vec![0.0; n];
            moves[fast] = 1.0;
            for (a, &own) in order[..rank].iter().enumerate() {
                moves[own] = -dot(&columns[a][a..], &row[a..]);
            }
            moves
        })
        .collect();
    Ranked { inverse, free }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(rows: [[f64; 3]; 3]) -> Symmetric {
        let mut matrix = Symmetric::zeros(3);
        for (i, row) in rows.iter().enumerate() {
            for (j, number) in row.iter().enumerate() {
                matrix.set(i, j, *number);
            }
        }
        matrix
    }

    #[test]
    fn the_inverse_times_the_matrix_is_one() {
        let matrix = of([[4.0, 1.0, -2.0], [1.0, 5.0, 0.5], [-2.0, 0.5, 6.0]]);
        let found = ranked(&matrix, 1e6);
        assert!(found.free.is_empty());
        for i in 0..3 {
            for j in 0..3 {
                let product = dot(matrix.row(i), found.inverse.row(j));
                let one = if i == j { 1.0 } else { 0.0 };
                assert!((product - one).abs() < 1e-14);
            }
        }
        let x = matrix.damped_solution(&[3.0, 6.5, 4.5], 0.0).unwrap();
        assert!(x.iter().all(|x| (x - 1.0).abs() < 1e-14), "{x:?}");
    }

    #[test]
    fn what_nothing_sees_is_told() {
        // Only the sum of the first two is known, and the third.
        let matrix = of([[4.0, 4.0, 0.0], [4.0, 4.0, 0.0], [0.0, 0.0, 9.0]]);
        let found = ranked(&matrix, 1e6);
        assert_eq!(found.free.len(), 1);
        let free = &found.free[0];
        assert!((free[0] + free[1]).abs() < 1e-14 && free[2] == 0.0);
        assert_eq!(found.inverse.get(2, 2), 1.0 / 9.0);
        let nothing = ranked(&Symmetric::zeros(3), 1e6);
        assert_eq!(nothing.free.len(), 3);
    }
}
