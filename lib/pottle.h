/* pottle.h - scaling, filling and process look-up for home preserving.
 *
 * Four parts, one per storey of the library, each using only those above it
 * here:
 *
 *   base.h       status, numbers, units, quantities, estimates
 *   matter.h     physical properties of water, air and sugar solutions
 *   catalogue.h  what the publications say: foods, jars, recipes, processes
 *   kitchen.h    what is computed from it: convert, scale, fill, plan
 *
 * Rules that hold everywhere:
 *
 * - Inside, masses are g, volumes mL, lengths mm, temperatures deg C,
 *   pressures Pa; the unit is in every member name.
 * - A function that can fail returns a pottle_status and writes its outputs
 *   only when that is POTTLE_OK.
 * - pottle_X_open and pottle_X_read give an object, pottle_X_free takes it; NULL is
 *   fine. A pointer from a getter is borrowed and dies with its owner. Text
 *   goes into the caller's buffer with its size. Nothing else allocates.
 * - Objects do not change after they are made: many threads may read one.
 * - The library prints nothing, reads no environment, never exits.
 */
#ifndef POTTLE_H
#define POTTLE_H

#include <stdbool.h>
#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

#define POTTLE_H_INTERNAL
#include "pottle/version.h"
#include "pottle/base.h"
#include "pottle/matter.h"
#include "pottle/catalogue.h"
#include "pottle/kitchen.h"
#undef POTTLE_H_INTERNAL

#ifdef __cplusplus
}
#endif

#endif
