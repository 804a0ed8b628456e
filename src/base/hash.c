/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A short sum over bytes, to see whether they are still the same. */
#include "base/hash.h"

uint64_t bc_hash(const char *bytes, size_t n)
{
	uint64_t hash = 0xcbf29ce484222325U;
	for (size_t i = 0; i < n; i++) {
		hash ^= (unsigned char)bytes[i];
		hash *= 0x100000001b3U;
	}
	return hash;
}
