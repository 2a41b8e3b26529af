/* The arithmetic of functions/field on a regular layout without mirrors, in plain C: what the machine does with it when nothing stands in
   between. Takes the rule of an exponent, the layout and the grid as arguments; prints seconds a run (best of batches) and the field's sum.

   What it does and leaves out, so that the comparison is fair: a run begins with counts and sizes and ends with a new field, as benchField does; so
   the centres, the points and the field are made in it. The rule is handed over: the kernel keeps it too. What a term adds is tested and
   left out by the same rules as in the kernel. The product is the plain sum for each point; blocks of points like the kernel's, written by hand,
   make the whole 2 to 5 % quicker here. */
#define _POSIX_C_SOURCE 199309L
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define PER_UNIT 64
#define COEFFICIENTS 5
#define TAYLOR 7
#define END 10
#define CELLS (END * PER_UNIT)
#define THIN 0.001
#define BATCHES 100
#define PI 3.14159265358979323846

static double table[CELLS * COEFFICIENTS];

static void build(void) {
  for (int cell = 0; cell < CELLS; cell++) {
    double x = (cell + 0.5) / PER_UNIT, factor = -2 / sqrt(PI) * exp(-x * x), before = 0, hermite = 1, a[TAYLOR];
    double *c = table + cell * COEFFICIENTS;
    a[0] = erfc(x);
    for (int n = 1; n < TAYLOR; n++) {
      factor /= n * 2 * PER_UNIT;
      a[n] = factor * hermite;
      double next = 2 * x * hermite - 2 * (n - 1) * before;
      before = hermite;
      hermite = next;
      factor = -factor;
    }
    double low[COEFFICIENTS] = {a[0] + a[6] / 32, a[1] - a[5] * 5 / 16, a[2] - a[6] * 9 / 16, a[3] + a[5] * 5 / 4, a[4] + a[6] * 1.5};
    for (int i = 0; i < COEFFICIENTS - 1; i++)
      for (int n = COEFFICIENTS - 2; n >= i; n--) low[n] -= low[n + 1];
    for (int n = 0; n < COEFFICIENTS; n++) c[n] = low[n] * (1 << n);
  }
}

/* erfc of x given in cells, inside the table. */
static inline double erfc_cells(double cells) {
  int cell = (int)cells;
  double d = cells - floor(cells), dd = d * d;
  const double *c = table + cell * COEFFICIENTS;
  return c[0] + d * c[1] + dd * (c[2] + d * c[3] + dd * c[4]);
}

typedef struct {
  double k, step, ratio, ln_share, merged_tau, ln_merged, high, low, reach;
} rule;

typedef struct {
  int count, first;
  double *tau, *root, *ln_weight;
} terms;

static terms make_terms(const rule *r, double h, double far) {
  double r2 = fmin(h * h + far * far, h * h * r->reach);
  terms t;
  t.first = (int)floor(log(r->low / r2) / r->step);
  int last = (int)ceil(log(r->high / (h * h)) / r->step);
  if (last < t.first + 1) last = t.first + 1;
  t.count = last - t.first + 1;
  t.tau = malloc(3 * t.count * sizeof(double));
  t.root = t.tau + t.count;
  t.ln_weight = t.root + t.count;
  double next = exp(t.first * r->step);
  for (int i = 0; i < t.count; i++) {
    t.tau[i] = next;
    t.root[i] = sqrt(next);
    t.ln_weight[i] = r->k * (t.first + i) * r->step + r->ln_share;
    next *= r->ratio;
  }
  t.tau[0] *= r->merged_tau;
  t.ln_weight[0] += r->ln_merged;
  t.root[0] = sqrt(t.tau[0]);
  return t;
}

static int thick_from(const terms *t, double size) {
  int i = 0;
  while (i < t->count && t->root[i] * size < THIN) i++;
  return i;
}

static void axis(const rule *r, const terms *t, double h, const double *points, int n, const double *centres, int m, double size, double *values, int *filled) {
  int thick = thick_from(t, size), reach = t->count;
  double half = size / 2, last = CELLS - 1e-6, skip = h * h * r->reach;
  memset(values, 0, sizeof(double) * n * t->count);
  for (int i = 0; i < n; i++) {
    double *row = values + i * t->count;
    int most = 0, under = 0;
    for (int c = 0; c < m; c++) {
      double d = fabs(points[i] - centres[c]), near = d - half, r2 = h * h + (near > 0 ? near * near : 0);
      if (r2 > skip) continue;
      double limit = r->high / r2;
      while (reach > 0 && t->tau[reach - 1] > limit) reach--;
      while (reach < t->count && t->tau[reach] <= limit) reach++;
      if (reach > most) most = reach;
      int thin = thick < reach ? thick : reach;
      for (int j = 0; j < thin; j++) {
        double q = t->tau[j] * d * d;
        row[j] += exp(-q) * (1 + t->tau[j] * size * size / 12 * (2 * q - 1));
      }
      if (near < 0) under += 2;
      double sign = near < 0 ? -1 : 1, near_cells = fabs(near) * PER_UNIT, far_cells = (d + half) * PER_UNIT;
      int both = reach;
      while (both > thin && t->root[both - 1] * far_cells > last) both--;
      for (int j = thin; j < both; j++) row[j] += sign * erfc_cells(t->root[j] * near_cells) - erfc_cells(t->root[j] * far_cells);
      for (int j = both; j < reach; j++) {
        double a = t->root[j] * near_cells;
        row[j] += sign * erfc_cells(a < last ? a : last);
      }
    }
    for (int j = thick; j < most; j++) row[j] += under;
    filled[i] = most;
  }
}

static void factor(const terms *t, double size, double *weights) {
  for (int i = thick_from(t, size); i < t->count; i++) weights[i] *= sqrt(PI) / (2 * t->root[i] * size);
}

static double seconds(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return t.tv_sec + t.tv_nsec * 1e-9;
}

/* The middles of so many equal parts of a side, the first `some` of them. */
static double *middles(int parts, double size, int some) {
  double *at = malloc(some * sizeof(double));
  for (int i = 0; i < some; i++) at[i] = (i + 0.5) * size / parts;
  return at;
}

int main(int argc, char **argv) {
  if (argc != 22) return 2;
  double a[21];
  for (int i = 0; i < 21; i++) a[i] = atof(argv[i + 1]);
  rule r = {a[0], a[1], a[2], a[3], a[4], a[5], a[6], a[7], a[8]};
  double ppf = a[9], m = a[10], length = a[11], width = a[12], bench_x = a[15], bench_y = a[16], h = a[17];
  int along = (int)a[13], across = (int)a[14], nx = (int)a[18], ny = (int)a[19], runs = (int)a[20];
  int half_x = (nx + 1) / 2, half_y = (ny + 1) / 2;
  double *field = calloc(nx * ny, sizeof(double));
  build();
  double best = 1e9, sum = 0;
  for (int batch = 0; batch < BATCHES; batch++) {
    double start = seconds();
    for (int run = 0; run < runs; run++) {
      free(field);
      field = calloc(nx * ny, sizeof(double));
      double *us = middles(along, bench_x, along), *vs = middles(across, bench_y, across);
      double *xs = middles(nx, bench_x, half_x), *ys = middles(ny, bench_y, half_y);
      terms t = make_terms(&r, h, hypot(bench_x + length / 2, bench_y + width / 2));
      double *x = malloc(sizeof(double) * half_x * t.count), *y = malloc(sizeof(double) * half_y * t.count);
      double *weights = malloc(2 * sizeof(double) * t.count), *row = weights + t.count;
      int *fx = malloc(sizeof(int) * half_x), *fy = malloc(sizeof(int) * half_y);
      axis(&r, &t, h, xs, half_x, us, along, length, x, fx);
      axis(&r, &t, h, ys, half_y, vs, across, width, y, fy);
      double scale = ppf * (m + 1) / (2 * PI * h * h), ln_h = r.k * log(h * h);
      for (int i = 0; i < t.count; i++) weights[i] = scale * exp(t.ln_weight[i] + ln_h - t.tau[i] * h * h);
      factor(&t, length, weights);
      factor(&t, width, weights);
      for (int j = 0; j < half_y; j++) {
        for (int i = 0; i < fy[j]; i++) row[i] = weights[i] * y[j * t.count + i];
        for (int i = 0; i < half_x; i++) {
          int reach = fx[i] < fy[j] ? fx[i] : fy[j];
          double e = 0;
          for (int q = 0; q < reach; q++) e += row[q] * x[i * t.count + q];
          field[j * nx + i] = field[j * nx + nx - 1 - i] = field[(ny - 1 - j) * nx + i] = field[(ny - 1 - j) * nx + nx - 1 - i] = e;
        }
      }
      sum += field[run % (nx * ny)];
      free(us);
      free(vs);
      free(xs);
      free(ys);
      free(t.tau);
      free(x);
      free(y);
      free(weights);
      free(fx);
      free(fy);
    }
    double time = (seconds() - start) / runs;
    if (time < best) best = time;
  }
  double total = 0;
  for (int i = 0; i < nx * ny; i++) total += field[i];
  printf("%.9e %.15e %g\n", best, total, sum);
  return 0;
}
