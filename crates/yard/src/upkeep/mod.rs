//! What is due, what wears, what keeps failing: hours through every meter, due times, fittings counted.
