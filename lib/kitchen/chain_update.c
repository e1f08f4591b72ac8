/* chain_update.c - what observations tell of a chain: one linear-Gaussian
 * update in logarithms.
 *
 * The level has a flat prior. Everything is measured from the first
 * observation, so the level drops out exactly and no large number stands for
 * "not known". The unknowns are the steps and the error of that observation;
 * the other observations condition them. Matrices are small and lie on the
 * stack; their sizes are checked here, and the matrix that is decomposed is
 * positive definite by the smallest error that is allowed, so GSL's error
 * handler is never reached. */
#include <config.h>

#include <gsl/gsl_blas.h>
#include <gsl/gsl_linalg.h>
#include <math.h>
#include <string.h>

#include "kitchen/chain.h"

enum { SEEN_MAX = POTTLE_CHAIN_OBSERVED_MAX };

static bool
is_used(unsigned use, size_t i)
{
    return (use >> i & 1u) != 0;
}

/* Weights of a node against the first observation; the last is its error's. */
static void
row_of(const pottlei_chain_model *model, const pottlei_seen *first, size_t node,
       double *row)
{
    for (size_t k = 0; k < POTTLEI_STEPS; k++)
        row[k] = model->weight[node][k] - model->weight[first->node][k];
    row[POTTLEI_STEPS] = -1.0;
}

/* Logarithm of a node when every unknown is 0. */
static double
centre_of(const pottlei_chain_model *model, const pottlei_seen *first,
          size_t node)
{
    return first->log + model->offset[node] - model->offset[first->node];
}

static double
dot(const double *a, const double *b)
{
    double sum = 0;
    for (size_t k = 0; k < POTTLEI_UNKNOWNS; k++)
        sum += a[k] * b[k];
    return sum;
}

static double
variance_of(const pottlei_posterior *known, const double *row)
{
    double sum = 0;
    for (size_t i = 0; i < POTTLEI_UNKNOWNS; i++)
        sum += row[i] * dot(known->cov[i], row);
    return fmax(0, sum); /* rounding may leave -1e-20 of an exact link */
}

/* Conditions on the m observations whose rows, distances and variances of error
 * are given. */
static void
condition(const double *prior, double *rows, double *distance,
          const double *noise, size_t m, pottlei_posterior *out)
{
    double scaled[SEEN_MAX * POTTLEI_UNKNOWNS], square[SEEN_MAX * SEEN_MAX];
    for (size_t j = 0; j < m; j++)
        for (size_t k = 0; k < POTTLEI_UNKNOWNS; k++)
            scaled[j * POTTLEI_UNKNOWNS + k] =
                rows[j * POTTLEI_UNKNOWNS + k] * prior[k];
    gsl_matrix_view h = gsl_matrix_view_array(rows, m, POTTLEI_UNKNOWNS);
    gsl_matrix_view hp = gsl_matrix_view_array(scaled, m, POTTLEI_UNKNOWNS);
    gsl_matrix_view s = gsl_matrix_view_array(square, m, m);
    gsl_vector_view d = gsl_vector_view_array(distance, m);
    gsl_matrix_view cov = gsl_matrix_view_array(
        &out->cov[0][0], POTTLEI_UNKNOWNS, POTTLEI_UNKNOWNS);
    gsl_vector_view mean = gsl_vector_view_array(out->mean, POTTLEI_UNKNOWNS);
    /* S = H P H' + R = L L'; W = L^-1 H P; mean = W' L^-1 d; covariance = P -
     * W' W */
    gsl_blas_dgemm(CblasNoTrans, CblasTrans, 1.0, &hp.matrix, &h.matrix, 0.0,
                   &s.matrix);
    for (size_t j = 0; j < m; j++)
        square[j * m + j] += noise[j];
    gsl_linalg_cholesky_decomp1(&s.matrix);
    gsl_blas_dtrsm(CblasLeft, CblasLower, CblasNoTrans, CblasNonUnit, 1.0,
                   &s.matrix, &hp.matrix);
    gsl_blas_dtrsv(CblasLower, CblasNoTrans, CblasNonUnit, &s.matrix,
                   &d.vector);
    gsl_blas_dgemv(CblasTrans, 1.0, &hp.matrix, &d.vector, 0.0, &mean.vector);
    gsl_blas_dgemm(CblasTrans, CblasNoTrans, -1.0, &hp.matrix, &hp.matrix, 1.0,
                   &cov.matrix);
}

void
pottlei_chain_condition(const pottlei_chain_model *model,
                        const pottlei_seen *seen, size_t count, unsigned use,
                        pottlei_posterior *out)
{
    double prior[POTTLEI_UNKNOWNS] = { 0 }, rows[SEEN_MAX * POTTLEI_UNKNOWNS],
           distance[SEEN_MAX], noise[SEEN_MAX];
    size_t m = 0;
    memset(out, 0, sizeof *out);
    for (size_t i = 0; i < count && i < SEEN_MAX; i++) {
        if (!is_used(use, i))
            continue;
        if (!out->level) {
            out->level = true;
            out->first = seen[i];
            continue;
        }
        row_of(model, &out->first, seen[i].node, rows + m * POTTLEI_UNKNOWNS);
        distance[m] = seen[i].log - centre_of(model, &out->first, seen[i].node);
        noise[m++] = seen[i].sd * seen[i].sd;
    }
    for (size_t k = 0; k < POTTLEI_STEPS; k++)
        prior[k] = model->sd[k] * model->sd[k];
    prior[POTTLEI_STEPS] = out->level ? out->first.sd * out->first.sd : 0;
    for (size_t k = 0; k < POTTLEI_UNKNOWNS; k++)
        out->cov[k][k] = prior[k];
    if (m > 0)
        condition(prior, rows, distance, noise, m, out);
}

pottle_estimate
pottlei_chain_node(const pottlei_chain_model *model,
                   const pottlei_posterior *known, size_t node)
{
    double row[POTTLEI_UNKNOWNS];
    row_of(model, &known->first, node, row);
    return (pottle_estimate){ exp(centre_of(model, &known->first, node) +
                                  dot(row, known->mean)),
                              sqrt(variance_of(known, row)) };
}

pottle_estimate
pottlei_chain_ratio(const pottlei_chain_model *model,
                    const pottlei_posterior *known, size_t from, size_t to)
{
    double row[POTTLEI_UNKNOWNS] = { 0 };
    for (size_t k = 0; k < POTTLEI_STEPS; k++)
        row[k] = model->weight[to][k] - model->weight[from][k];
    return (pottle_estimate){ exp(model->offset[to] - model->offset[from] +
                                  dot(row, known->mean)),
                              sqrt(variance_of(known, row)) };
}

/* Standardised residual of observation j against what those of `use` predict.
 */
static double
residual(const pottlei_chain_model *model, const pottlei_seen *seen,
         size_t count, unsigned use, size_t j, pottle_estimate *predicted)
{
    pottlei_posterior known;
    pottlei_chain_condition(model, seen, count, use, &known);
    *predicted = pottlei_chain_node(model, &known, seen[j].node);
    return (seen[j].log - log(predicted->median)) /
           hypot(predicted->sd, seen[j].sd);
}

bool
pottlei_chain_clash(const pottlei_chain_model *model, const pottlei_seen *seen,
                    size_t count, double limit, pottlei_clash *out)
{
    if (count < 2)
        return false;
    *out = (pottlei_clash){ 0 };
    for (size_t j = 0; j < count; j++) {
        pottle_estimate predicted;
        const double sigma =
            residual(model, seen, count, ~(1u << j), j, &predicted);
        if (j == 0 || fabs(sigma) > fabs(out->sigma))
            *out = (pottlei_clash){ j, sigma, predicted, false, 0 };
    }
    /* two numbers are easier to look at again than one against all */
    double most = limit;
    const size_t j = out->seen;
    for (size_t i = 0; i < count; i++) {
        pottle_estimate predicted;
        const double sigma =
            i == j ? 0 : residual(model, seen, count, 1u << i, j, &predicted);
        if (i != j && fabs(sigma) > most) {
            most = fabs(sigma);
            *out = (pottlei_clash){ j, sigma, predicted, true, i };
        }
    }
    return true;
}
