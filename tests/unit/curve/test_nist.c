/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The least-squares wrapper on certified problems of NIST's Statistical Reference Datasets
 * (nonlinear regression): from the second start to six digits of parameters and sum of squares. */
#include <string.h>

#include "curve/fit.h"
#include "unit/unit.h"

struct problem {
	const char *name;
	size_t m;
	size_t p;
	double (*model)(const double *b, double x);
	const double *x;
	const double *y;
	double start[7];
	double certified[7];
	double certified_sum;
};

struct job {
	const struct problem *problem;
	double weight_of_first; /* for the test of the robust loss: moves one reading */
};

static void residuals(const double *b, double *r, void *context)
{
	const struct job *job = context;
	for (size_t i = 0; i < job->problem->m; i++)
		r[i] = job->problem->model(b, job->problem->x[i]) - job->problem->y[i];
	r[0] -= job->weight_of_first;
}

static double misra1a(const double *b, double x) { return b[0] * (1.0 - exp(-b[1] * x)); }
static const double misra1a_x[] = {77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8,
	477.3, 536.8, 593.1, 689.1, 760.0};
static const double misra1a_y[] = {10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76,
	55.05, 61.01, 66.40, 75.47, 81.78};

static double lanczos(const double *b, double x)
{
	return b[0] * exp(-b[1] * x) + b[2] * exp(-b[3] * x) + b[4] * exp(-b[5] * x);
}
static const double lanczos3_x[] = {0.00, 0.05, 0.10, 0.15, 0.20, 0.25, 0.30, 0.35, 0.40, 0.45,
	0.50, 0.55, 0.60, 0.65, 0.70, 0.75, 0.80, 0.85, 0.90, 0.95, 1.00, 1.05, 1.10, 1.15};
static const double lanczos3_y[] = {2.5134, 2.0443, 1.6684, 1.3664, 1.1232, 0.9269, 0.7679, 0.6389,
	0.5338, 0.4479, 0.3776, 0.3197, 0.2720, 0.2325, 0.1997, 0.1723, 0.1493, 0.1301, 0.1138,
	0.1000, 0.0883, 0.0783, 0.0698, 0.0624};

static double thurber(const double *b, double x)
{
	return (b[0] + x * (b[1] + x * (b[2] + x * b[3]))) /
	       (1.0 + x * (b[4] + x * (b[5] + x * b[6])));
}
static const double thurber_x[] = {-3.067, -2.981, -2.921, -2.912, -2.840, -2.797, -2.702, -2.699,
	-2.633, -2.481, -2.363, -2.322, -1.501, -1.460, -1.274, -1.212, -1.100, -1.046, -0.915,
	-0.714, -0.566, -0.545, -0.400, -0.309, -0.109, -0.103, 0.010, 0.119, 0.377, 0.790, 0.963,
	1.006, 1.115, 1.572, 1.841, 2.047, 2.200};
static const double thurber_y[] = {80.574, 84.248, 87.264, 87.195, 89.076, 89.608, 89.868, 90.101,
	92.405, 95.854, 100.696, 101.060, 401.672, 390.724, 567.534, 635.316, 733.054, 759.087,
	894.206, 990.785, 1090.109, 1080.914, 1122.643, 1178.351, 1260.531, 1273.514, 1288.339,
	1327.543, 1353.863, 1414.509, 1425.208, 1421.384, 1442.962, 1464.350, 1468.705, 1447.894,
	1457.628};

static double mgh17(const double *b, double x)
{
	return b[0] + b[1] * exp(-x * b[3]) + b[2] * exp(-x * b[4]);
}
static const double mgh17_x[] = {0, 10, 20, 30, 40, 50, 60, 70, 80, 90, 100, 110, 120, 130, 140,
	150, 160, 170, 180, 190, 200, 210, 220, 230, 240, 250, 260, 270, 280, 290, 300, 310, 320};
static const double mgh17_y[] = {0.844, 0.908, 0.932, 0.936, 0.925, 0.908, 0.881, 0.850, 0.818,
	0.784, 0.751, 0.718, 0.685, 0.658, 0.628, 0.603, 0.580, 0.558, 0.538, 0.522, 0.506, 0.490,
	0.478, 0.467, 0.457, 0.448, 0.438, 0.431, 0.424, 0.420, 0.414, 0.411, 0.406};

static double rat43(const double *b, double x)
{
	return b[0] / pow(1.0 + exp(b[1] - b[2] * x), 1.0 / b[3]);
}
static const double rat43_x[] = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15};
static const double rat43_y[] = {16.08, 33.83, 65.80, 97.20, 191.55, 326.20, 386.87, 520.53, 590.03,
	651.92, 724.93, 699.56, 689.96, 637.56, 717.41};

static double mgh09(const double *b, double x)
{
	return b[0] * (x * x + x * b[1]) / (x * x + x * b[2] + b[3]);
}
static const double mgh09_x[] = {
	4.0, 2.0, 1.0, 0.5, 0.25, 0.167, 0.125, 0.1, 0.0833, 0.0714, 0.0625};
static const double mgh09_y[] = {
	0.1957, 0.1947, 0.1735, 0.1600, 0.0844, 0.0627, 0.0456, 0.0342, 0.0323, 0.0235, 0.0246};

#define DATA(name) sizeof name##_x / sizeof *name##_x

static const struct problem problems[] = {
	{"Misra1a", DATA(misra1a), 2, misra1a, misra1a_x, misra1a_y, {250, 0.0005},
		{2.3894212918e+02, 5.5015643181e-04}, 1.2455138894e-01},
	{"Lanczos3", DATA(lanczos3), 6, lanczos, lanczos3_x, lanczos3_y,
		{0.5, 0.7, 3.6, 4.2, 4.0, 6.3},
		{8.6816414977e-02, 9.5498101505e-01, 8.4400777463e-01, 2.9515951832e+00,
			1.5825685901e+00, 4.9863565084e+00},
		1.6117193594e-08},
	{"Thurber", DATA(thurber), 7, thurber, thurber_x, thurber_y,
		{1300, 1500, 500, 75, 1, 0.4, 0.05},
		{1.2881396800e+03, 1.4910792535e+03, 5.8323836877e+02, 7.5416644291e+01,
			9.6629502864e-01, 3.9797285797e-01, 4.9727297349e-02},
		5.6427082397e+03},
	{"MGH17", DATA(mgh17), 5, mgh17, mgh17_x, mgh17_y, {0.5, 1.5, -1, 0.01, 0.02},
		{3.7541005211e-01, 1.9358469127e+00, -1.4646871366e+00, 1.2867534640e-02,
			2.2122699662e-02},
		5.4648946975e-05},
	{"Rat43", DATA(rat43), 4, rat43, rat43_x, rat43_y, {700, 5, 0.75, 1.3},
		{6.9964151270e+02, 5.2771253025e+00, 7.5962938329e-01, 1.2792483859e+00},
		8.7864049080e+03},
	{"MGH09", DATA(mgh09), 4, mgh09, mgh09_x, mgh09_y, {0.25, 0.39, 0.415, 0.39},
		{1.9280693458e-01, 1.9128232873e-01, 1.2305650693e-01, 1.3606233068e-01},
		3.0750560385e-04},
};
#define PROBLEMS (sizeof problems / sizeof *problems)

static struct bc_least_squares wrapped(struct job *job)
{
	return (struct bc_least_squares){
		.m = job->problem->m,
		.p = job->problem->p,
		.residuals = residuals,
		.context = job,
	};
}

/* The data are typed as NIST has them: at the certified parameters the certified sum comes out. */
static void test_data_give_certified_sum(void **state)
{
	(void)state;
	for (size_t i = 0; i < PROBLEMS; i++) {
		struct job job = {.problem = &problems[i]};
		double r[64];
		double sum = 0.0;
		residuals(problems[i].certified, r, &job);
		for (size_t k = 0; k < problems[i].m; k++)
			sum += r[k] * r[k];
		assert_close(sum / problems[i].certified_sum, 1.0, 1e-7);
	}
}

static void test_certified_parameters(void **state)
{
	(void)state;
	for (size_t i = 0; i < PROBLEMS; i++) {
		struct job job = {.problem = &problems[i]};
		struct bc_least_squares problem = wrapped(&job);
		double b[7];
		double sum;
		memcpy(b, problems[i].start, sizeof b);
		assert_int_equal(bc_least_squares_solve(&problem, b, &sum), BC_OK);
		print_message("%s: sum off by %.1e\n", problems[i].name,
			fabs(sum / problems[i].certified_sum - 1.0));
		assert_close(sum / problems[i].certified_sum, 1.0, 1e-8);
		for (size_t k = 0; k < problems[i].p; k++)
			assert_close(b[k] / problems[i].certified[k], 1.0, 2e-6);
	}
}

/* One reading spoilt by 30: plain least squares follows it, the robust loss hardly. */
static void test_robust_loss_resists_one_bad_reading(void **state)
{
	(void)state;
	struct job job = {.problem = &problems[0], .weight_of_first = 30.0};
	struct bc_least_squares problem = wrapped(&job);
	double plain[7] = {250, 0.0005};
	double robust[7] = {250, 0.0005};
	double sum;

	assert_int_equal(bc_least_squares_solve(&problem, plain, &sum), BC_OK);
	problem.robust_scale = 0.3;
	assert_int_equal(bc_least_squares_solve(&problem, robust, &sum), BC_OK);
	assert_true(fabs(plain[0] / problems[0].certified[0] - 1.0) > 0.1);
	assert_close(robust[0] / problems[0].certified[0], 1.0, 0.01);
}

static void test_fewer_readings_than_parameters(void **state)
{
	(void)state;
	struct job job = {.problem = &problems[0]};
	struct bc_least_squares problem = wrapped(&job);
	double b[7] = {250, 0.0005};
	double sum = 0.0;

	problem.m = 1;
	assert_int_equal(bc_least_squares_solve(&problem, b, &sum), BC_TOO_FEW);
	assert_nan(sum);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(test_data_give_certified_sum),
		cmocka_unit_test(test_certified_parameters),
		cmocka_unit_test(test_robust_loss_resists_one_bad_reading),
		cmocka_unit_test(test_fewer_readings_than_parameters),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
