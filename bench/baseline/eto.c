// Daily reference evapotranspiration (FAO-56 eq. 6 = ASCE-EWRI 2005, short reference, daily step), written as the book has it:
// one loop, one station-day an element, vapour pressure from the dew point, simple clear-sky radiation.
// eto_plain is the straightforward loop. gcc joins its sines and cosines of one angle to calls that it cannot vectorise; in
// eto_shaped cosines are written as shifted sines and sin(acos(x)) as a root, after which the whole loop becomes vector code.
#include <math.h>
#include <stddef.h>

static inline double saturation(double t) { return 0.6108 * exp(17.27 * t / (t + 237.3)); }

static inline double fourth(double x) { return x * x * x * x; }

void eto_plain(size_t n, const double *restrict latitude_deg, const double *restrict elevation_m, const double *restrict day_of_year,
         const double *restrict tmax_c, const double *restrict tmin_c, const double *restrict dew_point_c,
         const double *restrict radiation, const double *restrict wind_ms, double wind_factor, double floor_rs,
         double *restrict eto_mm)
{
    for (size_t i = 0; i < n; i++) {
        double latitude = latitude_deg[i] * (M_PI / 180);
        double angle = 2 * M_PI / 365 * day_of_year[i];
        double distance = 1 + 0.033 * cos(angle);
        double declination = 0.409 * sin(angle - 1.39);
        double sunset = acos(fmin(1, fmax(-1, -tan(latitude) * tan(declination))));
        double above = 24 * 60 / M_PI * 0.0820 * distance
            * (sunset * sin(latitude) * sin(declination) + cos(latitude) * cos(declination) * sin(sunset));
        double clear = (0.75 + 2e-5 * elevation_m[i]) * above;

        double pressure = 101.3 * pow((293 - 0.0065 * elevation_m[i]) / 293, 5.26);
        double gamma = 0.665e-3 * pressure;
        double mean = (tmax_c[i] + tmin_c[i]) / 2;
        double ea = saturation(dew_point_c[i]);
        double deficit = fmax(0, (saturation(tmax_c[i]) + saturation(tmin_c[i])) / 2 - ea);
        double slope = 4098 * saturation(mean) / ((mean + 237.3) * (mean + 237.3));

        double relative = clear > 0 ? fmin(1, fmax(floor_rs, radiation[i] / clear)) : 1;
        double longwave = 4.903e-9 * (fourth(tmax_c[i] + 273.16) + fourth(tmin_c[i] + 273.16)) / 2
            * (0.34 - 0.14 * sqrt(ea)) * (1.35 * relative - 0.35);
        double net = (1 - 0.23) * radiation[i] - longwave;
        double wind = wind_ms[i] * wind_factor;
        double eto = (0.408 * slope * net + gamma * 900 / (mean + 273) * wind * deficit) / (slope + gamma * (1 + 0.34 * wind));
        eto_mm[i] = fmax(0, eto);
    }
}

void eto_shaped(size_t n, const double *restrict latitude_deg, const double *restrict elevation_m, const double *restrict day_of_year,
         const double *restrict tmax_c, const double *restrict tmin_c, const double *restrict dew_point_c,
         const double *restrict radiation, const double *restrict wind_ms, double wind_factor, double floor_rs,
         double *restrict eto_mm)
{
    for (size_t i = 0; i < n; i++) {
        double latitude = latitude_deg[i] * (M_PI / 180);
        double angle = 2 * M_PI / 365 * day_of_year[i];
        double distance = 1 + 0.033 * sin(angle + M_PI_2);
        double declination = 0.409 * sin(angle - 1.39);
        double cos_sunset = fmin(1, fmax(-1, -tan(latitude) * tan(declination)));
        double sunset = acos(cos_sunset);
        double above = 24 * 60 / M_PI * 0.0820 * distance
            * (sunset * sin(latitude) * sin(declination) + sin(latitude + M_PI_2) * sin(declination + M_PI_2) * sqrt(1 - cos_sunset * cos_sunset));
        double clear = (0.75 + 2e-5 * elevation_m[i]) * above;

        double pressure = 101.3 * pow((293 - 0.0065 * elevation_m[i]) / 293, 5.26);
        double gamma = 0.665e-3 * pressure;
        double mean = (tmax_c[i] + tmin_c[i]) / 2;
        double ea = saturation(dew_point_c[i]);
        double deficit = fmax(0, (saturation(tmax_c[i]) + saturation(tmin_c[i])) / 2 - ea);
        double slope = 4098 * saturation(mean) / ((mean + 237.3) * (mean + 237.3));

        double relative = clear > 0 ? fmin(1, fmax(floor_rs, radiation[i] / clear)) : 1;
        double longwave = 4.903e-9 * (fourth(tmax_c[i] + 273.16) + fourth(tmin_c[i] + 273.16)) / 2
            * (0.34 - 0.14 * sqrt(ea)) * (1.35 * relative - 0.35);
        double net = (1 - 0.23) * radiation[i] - longwave;
        double wind = wind_ms[i] * wind_factor;
        double eto = (0.408 * slope * net + gamma * 900 / (mean + 273) * wind * deficit) / (slope + gamma * (1 + 0.34 * wind));
        eto_mm[i] = fmax(0, eto);
    }
}
