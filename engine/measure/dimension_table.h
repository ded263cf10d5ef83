/* Dimensions that have a name. X-macro: DIMENSION(id, length, mass, time, temperature, current,
 * angle, name, words) id      for the rows of unit_table.h powers  of metre, kilogram, second,
 * kelvin, ampere and radian name    what it is called in messages words   other words that an
 * author may write after `reading:`, separated by "|" A word stands here only if it can mean
 * nothing else: "level" and "rate" are in no row. No two rows have the same powers. */
#ifndef TT_MEASURE_DIMENSION_TABLE_H
#define TT_MEASURE_DIMENSION_TABLE_H

#define DIMENSION_TABLE(DIMENSION) \
    DIMENSION(NONE, 0, 0, 0, 0, 0, 0, "a plain number", \
              "number|count|ratio|share|percentage|dilution|strength") \
    DIMENSION(LENGTH, 1, 0, 0, 0, 0, 0, "length", \
              "distance|height|depth|width|thickness|diameter") \
    DIMENSION(AREA, 2, 0, 0, 0, 0, 0, "area", "") \
    DIMENSION(VOLUME, 3, 0, 0, 0, 0, 0, "volume", "") \
    DIMENSION(MASS, 0, 1, 0, 0, 0, 0, "mass", "weight") \
    DIMENSION(TIME, 0, 0, 1, 0, 0, 0, "time", "duration") \
    DIMENSION(TEMPERATURE, 0, 0, 0, 1, 0, 0, "temperature", "") \
    DIMENSION(PRESSURE, -1, 1, -2, 0, 0, 0, "pressure", "vacuum") \
    DIMENSION(FLOW, 3, 0, -1, 0, 0, 0, "flow", "flow-rate|flow rate") \
    DIMENSION(SPEED, 1, 0, -1, 0, 0, 0, "speed", "velocity") \
    DIMENSION(ACCELERATION, 1, 0, -2, 0, 0, 0, "acceleration", "") \
    DIMENSION(FREQUENCY, 0, 0, -1, 0, 0, 0, "number per time", "frequency|rotation") \
    DIMENSION(ANGLE, 0, 0, 0, 0, 0, 1, "angle", "") \
    DIMENSION(MASS_FLOW, 0, 1, -1, 0, 0, 0, "mass flow", "") \
    DIMENSION(DENSITY, -3, 1, 0, 0, 0, 0, "mass per volume", "density|hardness|water hardness") \
    DIMENSION(FORCE, 1, 1, -2, 0, 0, 0, "force", "") \
    DIMENSION(ENERGY, 2, 1, -2, 0, 0, 0, "energy or torque", "energy|torque") \
    DIMENSION(POWER, 2, 1, -3, 0, 0, 0, "power", "") \
    DIMENSION(CURRENT, 0, 0, 0, 0, 1, 0, "current", "") \
    DIMENSION(VOLTAGE, 2, 1, -3, 0, -1, 0, "voltage", "") \
    DIMENSION(RESISTANCE, 2, 1, -3, 0, -2, 0, "resistance", "") \
    DIMENSION(CONDUCTANCE, -2, -1, 3, 0, 2, 0, "conductance", "") \
    DIMENSION(CONDUCTIVITY, -3, -1, 3, 0, 2, 0, "conductivity", "")

#endif
