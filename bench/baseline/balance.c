// Root-zone balance of many lanes (FAO-56 eq. 84 to 88, wet leaves first), day by day: the same sums as the engine's.
// balance_plain is how one writes it: a loop over days inside a loop over lanes. balance_shaped has the days outside and a block of
// lanes inside, in local arrays of fixed length, so that gcc can put lanes side by side in vector registers. balance_float is the latter
// in single precision.
#include <math.h>
#include <stddef.h>

void balance_plain(size_t lanes, size_t days, double total,
                   const double *restrict use, const double *restrict rain, const double *restrict leaf, const double *restrict slope, const double *restrict share,
                   const double *restrict water, double *restrict left, double *restrict drainage, double *restrict unmet)
{
    for (size_t s = 0; s < lanes; s++) {
        double w = left[s], drained = drainage[s], lacking = unmet[s], depth = water[s];
        for (size_t t = 0; t < days; t++) {
            double given = depth * share[t];
            double on = fmin(given, leaf[t]);
            double rest = fmax(use[t] - on, 0);
            double used = fmin(w * slope[t], 1) * rest;
            double after = w + (rain[t] + (given - on)) - used;
            double kept = fmin(after, total);
            drained += after - kept;
            w = fmax(kept, 0);
            lacking += rest - used + (w - kept);
        }
        left[s] = w;
        drainage[s] = drained;
        unmet[s] = lacking;
    }
}

#define SHAPED(name, number, most, least, block)                                                                                                     \
    void name(size_t lanes, size_t days, number total,                                                                                               \
              const number *restrict use, const number *restrict rain, const number *restrict leaf, const number *restrict slope,                    \
              const number *restrict share, const number *restrict water, number *restrict left, number *restrict drainage, number *restrict unmet) \
    {                                                                                                                                                \
        for (size_t first = 0; first + block <= lanes; first += block) {                                                                             \
            number w[block], drained[block], lacking[block], depth[block];                                                                           \
            for (size_t i = 0; i < block; i++) {                                                                                                     \
                w[i] = left[first + i];                                                                                                              \
                drained[i] = drainage[first + i];                                                                                                    \
                lacking[i] = unmet[first + i];                                                                                                       \
                depth[i] = water[first + i];                                                                                                         \
            }                                                                                                                                        \
            for (size_t t = 0; t < days; t++) {                                                                                                      \
                number u = use[t], r = rain[t], l = leaf[t], k = slope[t], sh = share[t];                                                            \
                for (size_t i = 0; i < block; i++) {                                                                                                 \
                    number given = depth[i] * sh;                                                                                                    \
                    number on = least(given, l);                                                                                                     \
                    number rest = most(u - on, 0);                                                                                                   \
                    number used = least(w[i] * k, 1) * rest;                                                                                         \
                    number after = w[i] + (r + (given - on)) - used;                                                                                 \
                    number kept = least(after, total);                                                                                               \
                    drained[i] += after - kept;                                                                                                      \
                    w[i] = most(kept, 0);                                                                                                            \
                    lacking[i] += rest - used + (w[i] - kept);                                                                                       \
                }                                                                                                                                    \
            }                                                                                                                                        \
            for (size_t i = 0; i < block; i++) {                                                                                                     \
                left[first + i] = w[i];                                                                                                              \
                drainage[first + i] = drained[i];                                                                                                    \
                unmet[first + i] = lacking[i];                                                                                                       \
            }                                                                                                                                        \
        }                                                                                                                                            \
    }

SHAPED(balance_shaped, double, fmax, fmin, 32)
SHAPED(balance_float, float, fmaxf, fminf, 64)
