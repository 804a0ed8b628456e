/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_METHOD_ERRORS_H
#define BC_FUEL_METHOD_ERRORS_H

/*
 * The errors of the methods, once: half-widths (95 %) by which a correlation misses an oil whose
 * readings are exact. Derivatives and draws both take them from here.
 */

/* Vapour-space flash [degC]: bc_flash_half_width_c in fuel/properties.h says on what oils. */
#define BC_ERROR_FLASH_C 12.5
#define BC_ERROR_FLASH_WIDE_FROM_C 60.0    /* span IBP..10 % above which it grows ... */
#define BC_ERROR_FLASH_PER_SPAN 0.15       /* ... by this for each degC; judgement */
#define BC_ERROR_FLASH_UNREAD_SPAN_C 111.0 /* an unread IBP counts as the widest oil measured */

/* Flash from T10 [degC], which reads high: bc_flash_t10_bounds_c in fuel/properties.h. */
#define BC_ERROR_FLASH_T10_BELOW_C 15.0
#define BC_ERROR_FLASH_T10_BELOW_PER_SPAN 0.45
#define BC_ERROR_FLASH_T10_ABOVE_C 5.0

/* Density from the curve [kg/m3]: measured, 60 D86-type curves. */
#define BC_ERROR_DENSITY_CURVE_KGM3 58.0
/* ... of a product, by constant Watson K along a cut; assumed. */
#define BC_ERROR_DENSITY_PRODUCT_KGM3 2.0

/* Cetane indices: D4737 states under 2 for 65 % of fuels, so 4; and 25 against the cetane number of
 * branched oils, measured on synthetic kerosenes. */
#define BC_CETANE_HALF_WIDTH 4.0
#define BC_CETANE_BRANCHED 25.0

/* Viscosity, as a share of it. */
#define BC_ERROR_VISC40_SHARE 0.20 /* measured, kerosenes and heavier oils */
#define BC_ERROR_VISC20_SHARE 0.25 /* the same, carried 18 degC further; assumed */
#define BC_ERROR_VISC_OUTSIDE 2.0  /* factor for a slice outside the range; judgement */

#define BC_ERROR_MOLAR_MASS_SHARE 0.14 /* twice the average error of 7 % that API 2B2.1 states */
#define BC_ERROR_MEAN_BOILING_C 2.0    /* no error published; assumed */
#define BC_ERROR_NET_HEAT_MJKG 0.4     /* 1 %; D4868, from memory */
/* Vapour pressure changes by about 4.5 % a degree near the flash point (Lee-Kesler), and the same
 * front end that makes the flash uncertain makes it so. */
#define BC_ERROR_VAPOUR_PER_C 0.045

/* A point that nobody read and no fit answers [degC], at least; assumed. */
#define BC_ERROR_UNREAD_POINT_C 10.0
/* A point outside Riazi-Daubert's range [degC]; computed. */
#define BC_ERROR_OUTSIDE_RANGE_C 10.0

#endif
