/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BASE_HASH_H
#define BC_BASE_HASH_H

#include <stddef.h>
#include <stdint.h>

/*
 * bc_hash - FNV-1a of bytes, 64 bit: finds what was damaged by chance, not what was forged
 *
 * Source    Fowler, Noll, Vo; constants as in RFC 9923, from memory
 * Checks    tests/unit/base/test_hash.c
 */
uint64_t bc_hash(const char *bytes, size_t n);

#endif
