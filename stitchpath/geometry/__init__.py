"""Arrays in, arrays out: points, clipping, distances; the only home of tolerances."""
