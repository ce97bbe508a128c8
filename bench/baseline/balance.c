// Root-zone balance of many spots (FAO-56 eq. 84 to 88), day by day: the same sums as the engine's.
// balance_plain is how one writes it: a loop over days inside a loop over spots. balance_shaped has the days outside and a block of
// spots inside, in local arrays of fixed length, so that gcc can put spots side by side in vector registers. balance_float is the latter
// in single precision.
#include <math.h>
#include <stddef.h>

void balance_plain(size_t spots, size_t days, double total, double readily, double per_stress,
                   const double *restrict wanted, const double *restrict rain, const double *restrict share,
                   const double *restrict water, double *restrict depletion, double *restrict drainage, double *restrict stress)
{
    for (size_t s = 0; s < spots; s++) {
        double d = depletion[s], drained = drainage[s], past = stress[s], depth = water[s];
        for (size_t t = 0; t < days; t++) {
            double ks = fmin(1, (total - d) * per_stress);
            double after = d - (rain[t] + share[t] * depth) + ks * wanted[t];
            double kept = fmax(after, 0);
            drained += kept - after;
            d = fmin(kept, total);
            past += fmax(d - readily, 0);
        }
        depletion[s] = d;
        drainage[s] = drained;
        stress[s] = past;
    }
}

#define SHAPED(name, number, most, least, block)                                                                                \
    void name(size_t spots, size_t days, number total, number readily, number per_stress,                                      \
              const number *restrict wanted, const number *restrict rain, const number *restrict share,                        \
              const number *restrict water, number *restrict depletion, number *restrict drainage, number *restrict stress)    \
    {                                                                                                                           \
        for (size_t first = 0; first < spots; first += block) {                                                                 \
            number d[block], drained[block], past[block], depth[block];                                                         \
            for (size_t s = 0; s < block; s++) {                                                                                \
                d[s] = depletion[first + s];                                                                                    \
                drained[s] = drainage[first + s];                                                                               \
                past[s] = stress[first + s];                                                                                    \
                depth[s] = water[first + s];                                                                                    \
            }                                                                                                                   \
            for (size_t t = 0; t < days; t++) {                                                                                 \
                for (size_t s = 0; s < block; s++) {                                                                            \
                    number ks = least(1, (total - d[s]) * per_stress);                                                          \
                    number after = d[s] - (rain[t] + share[t] * depth[s]) + ks * wanted[t];                                     \
                    number kept = most(after, 0);                                                                               \
                    drained[s] += kept - after;                                                                                 \
                    d[s] = least(kept, total);                                                                                  \
                    past[s] += most(d[s] - readily, 0);                                                                         \
                }                                                                                                               \
            }                                                                                                                   \
            for (size_t s = 0; s < block; s++) {                                                                                \
                depletion[first + s] = d[s];                                                                                    \
                drainage[first + s] = drained[s];                                                                               \
                stress[first + s] = past[s];                                                                                    \
            }                                                                                                                   \
        }                                                                                                                       \
    }

SHAPED(balance_shaped, double, fmax, fmin, 32)
SHAPED(balance_float, float, fmaxf, fminf, 64)
