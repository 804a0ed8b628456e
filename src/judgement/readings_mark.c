/* SPDX-License-Identifier: GPL-3.0-or-later */
/* By which a boil-off is known again, whatever its file is called: a hash of its readings. */
#include "judgement/readings_mark.h"

#include <math.h>
#include <string.h>

static uint64_t mix(uint64_t hash, const void *data, size_t n)
{
	const unsigned char *bytes = data;
	for (size_t i = 0; i < n; i++)
		hash = (hash ^ bytes[i]) * UINT64_C(1099511628211); /* FNV-1a */
	return hash;
}

static uint64_t mix_number(uint64_t hash, double value)
{
	double plain = isnan(value) ? 0.0 : value + 0.0;
	return mix(hash, &plain, sizeof plain);
}

uint64_t bc_readings_mark(uint64_t mark, const struct bc_sample *sample)
{
	for (size_t i = 0; sample != NULL && i < sample->n_readings; i++) {
		mark = mix_number(mark, (double)sample->readings[i].kind);
		mark = mix_number(mark, sample->readings[i].amount);
		mark = mix_number(mark, sample->readings[i].head_c);
	}
	return mark;
}

uint64_t bc_words_mark(uint64_t mark, const char *words)
{
	return words != NULL ? mix(mark, words, strlen(words)) : mark;
}
