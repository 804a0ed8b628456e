/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_METHOD_ERRORS_H
#define BC_FUEL_METHOD_ERRORS_H

/*
 * The errors of the methods, once: half-widths (95 %) by which a correlation misses an oil whose
 * readings are exact. Derivatives and draws both take them from here. Measured figures:
 * standards-notes/error-models.md.
 */

/* Vapour-space flash [degC]: bc_flash_half_width_c in fuel/properties.h says on what oils. */
#define BC_ERROR_FLASH_C 10.0 /* measured, 17 narrow oils with an IBP */
#define BC_ERROR_FLASH_PER_SPAN                                                                    \
	0.17 /* ... and by squares this for each degC of IBP..10 %; 9 wide */
#define BC_ERROR_FLASH_UNREAD_C 45.0 /* measured, 7 without an IBP */
#define BC_ERROR_FLASH_HEAVY_C 75.0  /* measured, 6 above BC_HEAVY_T10_C */
/* A heavy oil flashes too early by its traces of light, which have the estimate itself for room:
 * three measured, 1 to 41 % of it too early. Never surer than without an IBP. */
#define BC_ERROR_FLASH_HEAVY_LOW_SHARE 0.5
#define BC_ERROR_FLASH_HEAVY_LEAST_C 45.0

/* Flash from T10 [degC], which reads high: bc_flash_t10_bounds_c in fuel/properties.h. An unread
 * IBP counts as the widest oil measured. */
#define BC_ERROR_FLASH_T10_BELOW_C 15.0
#define BC_ERROR_FLASH_T10_BELOW_PER_SPAN 0.45
#define BC_ERROR_FLASH_T10_ABOVE_C 5.0
#define BC_ERROR_FLASH_UNREAD_SPAN_C 111.0

/* Density from the curve [kg/m3]: measured, 65 D86-type curves; and 8 above BC_HEAVY_T10_C. */
#define BC_ERROR_DENSITY_CURVE_KGM3 58.0
#define BC_ERROR_DENSITY_HEAVY_KGM3 160.0
/* ... of a product: of any, and a share of how far it moved from the oil that it was cut from, by
 * constant Watson K; measured: fuel/properties.h. */
#define BC_ERROR_DENSITY_PRODUCT_KGM3 2.0
#define BC_ERROR_DENSITY_MOVE_SHARE 0.6

/* Cetane indices against a cetane number: D4737 states under 2 for 65 % of fuels, so 4; of D976 on
 * 46 surveyed diesels (mean -2.5, RMS 3.2); and 45 where the oil is, or may be, branched or outside
 * the range of D4737 (six synthetic kerosenes, up to +43). */
#define BC_CETANE_HALF_WIDTH 4.0
#define BC_CETANE_D976_HALF_WIDTH 6.5
#define BC_CETANE_BRANCHED 45.0

/* Viscosity, as a share of it. */
#define BC_ERROR_VISC40_SHARE 0.20      /* measured, kerosenes to diesels */
#define BC_ERROR_VISC20_SHARE 0.25      /* the same, carried 18 degC further; assumed */
#define BC_ERROR_VISC_THIN_MM2S 0.9     /* at 40 degC: thinner than any kerosene */
#define BC_ERROR_VISC40_THIN_SHARE 0.60 /* measured, gasolines and reformates */
#define BC_ERROR_VISC20_THIN_SHARE 0.70 /* the same, carried further; assumed */
#define BC_ERROR_VISC_OUTSIDE 2.0       /* factor for a slice outside the range; judgement */

#define BC_ERROR_MOLAR_MASS_SHARE 0.14 /* twice the average error of 7 % that API 2B2.1 states */
#define BC_ERROR_MEAN_BOILING_C 2.0    /* no error published; assumed */
#define BC_ERROR_NET_HEAT_MJKG 0.4     /* 1 %; D4868, from memory */
/* Vapour pressure changes by about 4.5 % a degree near the flash point (Lee-Kesler), and the same
 * front end that makes the flash uncertain makes it so; no wider than without an IBP, as a log
 * ratio: 8 measured light oils, RMS 0.57. */
#define BC_ERROR_VAPOUR_PER_C 0.045
#define BC_ERROR_VAPOUR_UNREAD_IBP 1.1

/* A point that nobody read and no fit answers [degC], at least; assumed. */
#define BC_ERROR_UNREAD_POINT_C 10.0
/* A point outside Riazi-Daubert's range [degC]; computed. */
#define BC_ERROR_OUTSIDE_RANGE_C 10.0

#endif
