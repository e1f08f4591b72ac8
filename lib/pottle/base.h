/* base.h part of pottle.h: plain values. */
#ifndef POTTLE_H_INTERNAL
#error "include <pottle.h>, not its parts"
#endif

#if defined(__GNUC__)
#define POTTLE_API __attribute__((visibility("default")))
#define POTTLE_MUSTUSE __attribute__((warn_unused_result))
#define POTTLE_NONNULL(...) __attribute__((nonnull(__VA_ARGS__)))
#else
#define POTTLE_API
#define POTTLE_MUSTUSE
#define POTTLE_NONNULL(...)
#endif

/* -- Status ---------------------------------------------------------------- */

/* What happened, sorted by what the caller can do about it. Values are never
 * reused or renumbered. */
typedef enum pottle_status {
    /* Done; the outputs are written. */
    POTTLE_OK = 0,
    /* A number outside the range in which the function is valid: negative,
     * not finite, beyond a model's or a table's range. Ask for another. */
    POTTLE_EDOMAIN = 1,
    /* Refused: the request leaves the bounds in which the recipe was tested.
     * The error names the rule, its source and what may be done instead. */
    POTTLE_EBOUNDS = 2,
    /* Two dimensions met that do not go together, or a unit is not known. */
    POTTLE_EUNIT = 3,
    /* A catalogue file is invalid: the error has file, line and rule. */
    POTTLE_EDATA = 4,
    /* No such food, recipe, jar, form or file; the error lists near names. */
    POTTLE_ENOENT = 5,
    /* Reading or writing a file failed. */
    POTTLE_EIO = 6,
    /* No memory. Nothing is lost; try again with more. */
    POTTLE_ENOMEM = 7,
    /* A bug of the caller: a NULL where none may be, a version not known. */
    POTTLE_EMISUSE = 8,
    /* Text that cannot be read as what it should be. */
    POTTLE_ESYNTAX = 9,
    /* A name that fits two things: the error asks which. */
    POTTLE_EAMBIGUOUS = 10
} pottle_status;

/* Detail of a failure, owned by the caller. Functions that take one write it
 * only when they fail; a NULL pointer is fine. All members are empty strings
 * where there is nothing to say. */
typedef struct pottle_error {
    pottle_status status;
    long line;         /* in the file `where`, or 0 */
    char code[40];     /* a stable word for scripts, such as "keep-at-most" */
    char where[160];   /* file, recipe or the text that was read */
    char what[480];    /* one sentence */
    char source[64];   /* key of the source of the rule that refuses */
    char at[128];      /* place in that source */
    char instead[320]; /* the nearest thing that is allowed */
} pottle_error;

/* Text of a status. Total: any int gives a text, never NULL.
 *
 * Checked:   tests/test_status.c */
POTTLE_API const char *pottle_strerror(int status);

/* Version of the library that is linked, "MAJOR.MINOR.PATCH". */
POTTLE_API const char *pottle_version(void);

/* -- Values with a unit in the name ---------------------------------------- */

typedef struct pottle_mass {
    double g;
} pottle_mass;
typedef struct pottle_volume {
    double ml;
} pottle_volume;
typedef struct pottle_length {
    double mm;
} pottle_length;
typedef struct pottle_density {
    double g_ml;
} pottle_density;
typedef struct pottle_pressure {
    double pa;
} pottle_pressure;
typedef struct pottle_temperature {
    double degC;
} pottle_temperature;

/* -- Numbers as people write them ------------------------------------------ */

/* A number or a range; low equals high for a single number. */
typedef struct pottle_range {
    double low, high;
} pottle_range;

/* Largest number that is read, and the smallest above zero. */
#define POTTLE_NUMBER_MAX 1e9
/* Highest kitchen that is looked at (m), 14,763 ft: above it what is known of
 * boiling sugar ends (57,000 Pa, pottle_sugar_boiling), and no table names a
 * height above 8,000 ft. */
#define POTTLE_ALTITUDE_MAX_M 4500
#define POTTLE_NUMBER_MIN 1e-6

/* Reads a number or a range: 3, 3.5, 1/2, 3 1/2, 3-1/2, ½, 3½, 2-3, 2 to 3.
 * The decimal sign is a point whatever the locale; no exponent, no sign, no
 * thousands comma.
 *
 * Given:     text    UTF-8, the whole of it is read, blanks around are fine
 * Returned:  out     the range
 * Status:    POTTLE_OK; POTTLE_ESYNTAX when it is not a number; POTTLE_EDOMAIN
 *            when it divides by zero, is larger than POTTLE_NUMBER_MAX, above
 *            zero
 *            but under POTTLE_NUMBER_MIN, or a range whose high end is the
 *            lower
 * Checked:   tests/test_number.c */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_number_read(const char *text,
                                                           pottle_range *out);

/* Writes a number in decimal with a point, rounded half to even by the C
 * library, trailing zeros removed. Returns the length as snprintf does.
 *
 * Given:     value    any finite number; others give "?"
 *            decimals 0 to 9
 * Checked:   tests/test_number.c */
POTTLE_API size_t pottle_number_write(double value, int decimals, char *buf,
                                      size_t size);

/* -- Units ----------------------------------------------------------------- */

typedef enum pottle_dimension {
    POTTLE_NUMBER = 0,      /* no unit, or a percentage */
    POTTLE_MASS = 1,        /* base g */
    POTTLE_VOLUME = 2,      /* base mL */
    POTTLE_LENGTH = 3,      /* base mm */
    POTTLE_PRESSURE = 4,    /* base Pa */
    POTTLE_TEMPERATURE = 5, /* base deg C */
    POTTLE_COUNT = 6,       /* pieces; what one weighs, the food says */
    POTTLE_CONTAINER = 7    /* bushels, lugs: what they hold, the food says */
} pottle_dimension;

/* A unit of measure. base = value * factor + offset. */
typedef struct pottle_unit {
    const char *id;     /* as in catalogue files: "cup", "fl-oz" */
    const char *symbol; /* as printed after a number */
    const char *names;  /* all names it answers to, separated by | */
    pottle_dimension dimension;
    double factor; /* to the base unit of its dimension */
    double offset;
    const char *standard; /* where the factor is defined */
} pottle_unit;

/* Name of a dimension in words, "mass"; total. */
POTTLE_API const char *pottle_dimension_name(int dimension);

/* The i-th unit, or NULL past the end. The table is static. */
POTTLE_API const pottle_unit *pottle_unit_at(size_t i);

/* Finds a unit by any of its names, singular or plural, blanks and hyphens
 * alike. Upper and lower case are alike, but for T and t (spoons).
 *
 * Returned:  the unit, static; NULL when there is none */
POTTLE_API const pottle_unit *pottle_unit_find(const char *name);

/* A number, or a range of it, with its unit. */
typedef struct pottle_quantity {
    double low, high;
    const pottle_unit *unit;
} pottle_quantity;

/* Reads "3 1/2 cups", "1900 m", "2-3 lb", "1.2 kg", "1/4 in".
 *
 * Given:     text        UTF-8, the whole of it
 *            dimension   what it must be, or -1 for any
 * Returned:  out
 * Status:    POTTLE_OK; POTTLE_ESYNTAX; POTTLE_EDOMAIN as in
 *            pottle_number_read;
 *            POTTLE_EUNIT for an unknown unit or another dimension (the error
 *            names both)
 * Checked:   tests/test_unit.c */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_quantity_read(
    const char *text, int dimension, pottle_quantity *out, pottle_error *error);

/* Converts a value between two units of one dimension.
 *
 * Status:    POTTLE_OK; POTTLE_EUNIT when the dimensions differ or are counts
 *            or
 *            containers of different kinds (the error says which two met);
 *            POTTLE_EDOMAIN when the value is not finite
 * Checked:   tests/test_unit.c, against GNU units and UDUNITS-2 */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_unit_convert(double value, const pottle_unit *from,
                    const pottle_unit *to, double *out, pottle_error *error);

/* -- Estimates ------------------------------------------------------------- */

/* A positive quantity that is known to within a factor: its logarithm is normal
 * with mean ln(median) and standard deviation sd. sd 0 is exact. */
typedef struct pottle_estimate {
    double median, sd;
} pottle_estimate;

/* Low, expected and high: the 5 %, 50 % and 95 % points. */
typedef struct pottle_interval {
    double low, expected, high;
} pottle_interval;

/* The standard normal quantile at 95 %: an interval of 90 % is x/÷ exp(1.645
 * sd). */
#define POTTLE_Z95 1.6448536269514722

/* An estimate whose 5 % and 95 % points are low and high.
 * Status:    POTTLE_OK, or POTTLE_EDOMAIN unless 0 < low <= high < infinity */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_estimate_between(double low, double high, pottle_estimate *out);

/* Product, quotient and multiple of independent estimates. */
POTTLE_API pottle_estimate pottle_estimate_times(pottle_estimate a,
                                                 pottle_estimate b);
POTTLE_API pottle_estimate pottle_estimate_over(pottle_estimate a,
                                                pottle_estimate b);
POTTLE_API pottle_estimate pottle_estimate_multiple(pottle_estimate a,
                                                    double k);

/* Sum of independent estimates, by a lognormal of the same mean and variance
 * (Fenton-Wilkinson). n 0 gives {0, 0}.
 * Source:    L. F. Fenton, "The sum of log-normal probability distributions in
 *            scatter transmission systems", IRE Trans. Commun. Syst. 8 (1960)
 *            57-67 (from memory)
 * Checked:   tests/test_estimate.c, against a Monte-Carlo */
POTTLE_API pottle_estimate pottle_estimate_sum(const pottle_estimate *terms,
                                               size_t n);

/* Two independent estimates of one thing, weighted by precision in the
 * logarithm. Where one is exact it is the result. */
POTTLE_API pottle_estimate pottle_estimate_combine(pottle_estimate a,
                                                   pottle_estimate b);

/* The value under which it lies with probability p.
 * Status:    POTTLE_OK, or POTTLE_EDOMAIN unless 0 < p < 1 */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_estimate_quantile(pottle_estimate e, double p, double *out);

/* Its 5 %, 50 % and 95 % points. */
POTTLE_API pottle_interval pottle_estimate_interval(pottle_estimate e);
