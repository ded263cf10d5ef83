/* Every unit that has a spelling of its own. X-macro:
 *   UNIT(name, spellings, says, dimension, factor, offset, form, exact, source, gnu)    as struct
 * unit_row in unit.h
 *
 * The first row of a spelling is what it means; a later row with the same spelling is what it means
 * where that row's dimension is wanted
 * ("oz", "lb", "ppm"). Within a dimension the commonest stand first: examples in messages are taken
 * from the top. What can be composed (gal/min, psi/ft) needs no row; it has one where people expect
 * to find it in a list.
 *
 * Sources:
 *   SP 811     NIST Special Publication 811 (2008): SI units and prefixes, and the factors marked
 * exact in appendix B.8 defined    follows exactly from definitions: inch 0.0254 m, pound
 * 0.45359237 kg, standard gravity 9.80665 m/s² (all in SP 811 B.8), US gallon 231 in³, and what the
 * text beside it says. SP 811 prints these rounded to seven digits; here they stand in full
 *   practice   common practice of the trade, no published definition */
#ifndef TT_MEASURE_UNIT_TABLE_H
#define TT_MEASURE_UNIT_TABLE_H

#define IN_M      0.0254
#define FT_M      0.3048
#define LB_KG     0.45359237
#define GRAVITY   9.80665
#define GAL_M3    0.003785411784
#define IMPGAL_M3 0.00454609
#define IN3_M3    (IN_M * IN_M * IN_M)
#define FT3_M3    (FT_M * FT_M * FT_M)
#define LBF_N     (LB_KG * GRAVITY)
#define WATER_Pa  (1000 * GRAVITY) /* one metre of water of conventional density, 1000 kg/m³ */
#define HG_Pa \
    (13595.1 * GRAVITY) /* one metre of mercury of conventional density, 13595.1 kg/m³ \
                         */
#define TURN_RAD 6.283185307179586477
#define DEGF_K   (5.0 / 9.0)

/* Relative atomic masses of calcium, carbon and oxygen. */
#define CACO3_IN_CAO ((40.078 + 12.011 + 3 * 15.9994) / (40.078 + 15.9994))

/* Rows without an offset. */
#define PLAIN_UNIT(UNIT, name, spellings, says, dimension, factor, exact, source, gnu) \
    UNIT(name, spellings, says, dimension, factor, 0, UNIT_PLAIN, exact, source, gnu)

#define UNIT_TABLE(UNIT) \
    UNIT_TABLE_PRESSURE(UNIT, PLAIN_UNIT) \
    UNIT_TABLE_SIZE(UNIT, PLAIN_UNIT) \
    UNIT_TABLE_MASS(UNIT, PLAIN_UNIT) \
    UNIT_TABLE_VOLUME(UNIT, PLAIN_UNIT) \
    UNIT_TABLE_TIME(UNIT, PLAIN_UNIT) \
    UNIT_TABLE_TEMPERATURE(UNIT, PLAIN_UNIT) \
    UNIT_TABLE_FLOW(UNIT, PLAIN_UNIT) \
    UNIT_TABLE_SPEED(UNIT, PLAIN_UNIT) \
    UNIT_TABLE_RATIO(UNIT, PLAIN_UNIT) \
    UNIT_TABLE_FORCE(UNIT, PLAIN_UNIT) \
    UNIT_TABLE_ELECTRIC(UNIT, PLAIN_UNIT) \
    UNIT_TABLE_COUNT(UNIT, PLAIN_UNIT)

/* clang-format off */
/* "psig" and "barg" say what every gauge says, the pressure above the air's. Pressures from zero (psia, bara) have no row: they differ
 * from the gauge by the air pressure of the day, which is no factor. */
#define UNIT_TABLE_PRESSURE(U, P) \
    P(U, "psi", "psig|psid|lbf/in2|lbf/in²|lb/in2|lb/in²|lbs/in2|lbs/in²|lb/sq in|lbs/sq in|lbf/sq in|lb per square inch|lbs per square inch|pound per square inch|pounds per square inch", \
      "pound-force per square inch", PRESSURE, LBF_N / (IN_M * IN_M), true, "defined: pound × standard gravity over square inch", "psi") \
    P(U, "bar", "bars|barg", "bar", PRESSURE, 1e5, true, "SP 811", "bar") \
    P(U, "kPa", "kilopascal|kilopascals", "kilopascal", PRESSURE, 1e3, true, "SP 811", "kPa") \
    P(U, "MPa", "megapascal|megapascals", "megapascal", PRESSURE, 1e6, true, "SP 811", "MPa") \
    P(U, "mbar", "millibar|millibars", "millibar", PRESSURE, 100, true, "SP 811", "mbar") \
    P(U, "Pa", "pascal|pascals", "pascal", PRESSURE, 1, true, "SP 811", "Pa") \
    P(U, "inHg", "in Hg|inches Hg|inches of mercury|inch of mercury|\"Hg|\" Hg", "inch of mercury, conventional (13595.1 kg/m³)", \
      PRESSURE, HG_Pa * IN_M, true, "defined: conventional mercury × standard gravity × inch", "inHg") \
    P(U, "inH2O", "in H2O|inH₂O|in H₂O|inwc|in wc|inwg|in wg|inches wc|inches of water|inch of water|inches of water column|\"wc|\" wc", \
      "inch of water, conventional (1000 kg/m³)", PRESSURE, WATER_Pa * IN_M, true, \
      "defined: conventional water × standard gravity × inch", "inH2O") \
    P(U, "ftH2O", "ft H2O|ftH₂O|ft H₂O|ft of water|foot of water|feet of water|ft of head|foot of head|feet of head", \
      "foot of water, conventional (1000 kg/m³)", PRESSURE, WATER_Pa * FT_M, true, \
      "defined: conventional water × standard gravity × foot", "foot water") \
    P(U, "mH2O", "m H2O|mH₂O|m H₂O|mwc|m wc|m of water|metre of water|metres of water|meter of water|meters of water|m of head|" \
      "metres of head|meters of head", "metre of water, conventional (1000 kg/m³)", PRESSURE, WATER_Pa, true, \
      "defined: conventional water × standard gravity", "meter water") \
    P(U, "mmHg", "mm Hg", "millimetre of mercury, conventional (13595.1 kg/m³)", PRESSURE, HG_Pa * 0.001, true, \
      "defined: conventional mercury × standard gravity × millimetre", "mmHg") \
    P(U, "torr", "", "torr", PRESSURE, 101325.0 / 760, true, "defined: atmosphere / 760", "torr") \
    P(U, "atm", "atmosphere|atmospheres", "standard atmosphere", PRESSURE, 101325, true, "SP 811", "atm") \
    P(U, "kgf/cm2", "kgf/cm²|kg/cm2|kg/cm²|kp/cm2|kp/cm²", "kilogram-force per square centimetre", PRESSURE, GRAVITY * 1e4, true, \
      "defined: standard gravity over square centimetre", "kgf/cm^2")

#define UNIT_TABLE_SIZE(U, P) \
    P(U, "ft", "foot|feet|'|′|’", "foot", LENGTH, FT_M, true, "SP 811", "ft") \
    P(U, "in", "inch|inches|\"|″|”|''", "inch", LENGTH, IN_M, true, "SP 811", "in") \
    P(U, "m", "metre|metres|meter|meters", "metre", LENGTH, 1, true, "SP 811", "m") \
    P(U, "cm", "centimetre|centimetres|centimeter|centimeters", "centimetre", LENGTH, 0.01, true, "SP 811", "cm") \
    P(U, "mm", "millimetre|millimetres|millimeter|millimeters", "millimetre", LENGTH, 0.001, true, "SP 811", "mm") \
    P(U, "yd", "yard|yards", "yard", LENGTH, 0.9144, true, "SP 811", "yd") \
    P(U, "mile", "mi|miles", "mile", LENGTH, 1609.344, true, "SP 811", "mile") \
    P(U, "km", "kilometre|kilometres|kilometer|kilometers", "kilometre", LENGTH, 1000, true, "SP 811", "km") \
    P(U, "mil", "mils|thou", "thousandth of an inch", LENGTH, IN_M / 1000, true, "SP 811", "mil") \
    P(U, "µm", "μm|um|micron|microns|micrometre|micrometres|micrometer|micrometers", "micrometre", LENGTH, 1e-6, true, "SP 811", "micron") \
    P(U, "ft2", "", "square foot", AREA, FT_M * FT_M, true, "SP 811", "ft^2") \
    P(U, "in2", "", "square inch", AREA, IN_M * IN_M, true, "SP 811", "in^2") \
    P(U, "m2", "", "square metre", AREA, 1, true, "SP 811", "m^2") \
    P(U, "cm2", "", "square centimetre", AREA, 0.01 * 0.01, true, "SP 811", "cm^2") \
    P(U, "mm2", "", "square millimetre", AREA, 0.001 * 0.001, true, "SP 811", "mm^2") \
    P(U, "deg", "°|degree|degrees", "degree of angle", ANGLE, TURN_RAD / 360, true, "SP 811 (π/180 rad)", "degree") \
    P(U, "rad", "radian|radians", "radian", ANGLE, 1, true, "SP 811", "radian")

/* "oz" and "lb" are weights unless a volume or a force is wanted, so these rows stand before those. */
#define UNIT_TABLE_MASS(U, P) \
    P(U, "lb", "lbs|pound|pounds|lbm", "pound", MASS, LB_KG, true, "defined: 0.45359237 kg", "lb") \
    P(U, "oz", "ozs|ounce|ounces|oz wt|weight ounce|weight ounces", "ounce of weight", MASS, LB_KG / 16, true, "defined: pound / 16", "oz") \
    P(U, "kg", "kilo|kilos|kilogram|kilograms", "kilogram", MASS, 1, true, "SP 811", "kg") \
    P(U, "g", "gram|grams|gramme|grammes", "gram", MASS, 0.001, true, "SP 811", "g") \
    P(U, "mg", "milligram|milligrams", "milligram", MASS, 1e-6, true, "SP 811", "mg") \
    P(U, "ton", "tons|short ton|short tons|US ton|US tons", "US (short) ton, 2000 lb", MASS, LB_KG * 2000, true, "defined: 2000 lb", "shortton") \
    P(U, "t", "tonne|tonnes|metric ton|metric tons", "tonne, 1000 kg", MASS, 1000, true, "SP 811", "tonne") \
    P(U, "grain", "grains", "grain", MASS, LB_KG / 7000, true, "defined: pound / 7000", "grain")

#define UNIT_TABLE_VOLUME(U, P) \
    P(U, "gal", "gals|gallon|gallons|US gal|US gallon|US gallons", "US gallon", VOLUME, GAL_M3, true, "defined: 231 in³", "gallon") \
    P(U, "L", "l|ℓ|liter|liters|litre|litres|dm3|dm³", "litre", VOLUME, 0.001, true, "SP 811", "L") \
    P(U, "mL", "ml|milliliter|milliliters|millilitre|millilitres|cc|ccm", "millilitre", VOLUME, 1e-6, true, "SP 811", "mL") \
    P(U, "fl oz", "floz|fl ozs|fluid ounce|fluid ounces|US fl oz|oz|ozs|ounce|ounces", "US fluid ounce", VOLUME, GAL_M3 / 128, true, \
      "defined: US gallon / 128", "floz") \
    P(U, "qt", "qts|quart|quarts|US qt|US quart|US quarts", "US liquid quart", VOLUME, GAL_M3 / 4, true, "defined: US gallon / 4", "quart") \
    P(U, "pt", "pts|pint|pints|US pt|US pint|US pints", "US liquid pint", VOLUME, GAL_M3 / 8, true, "defined: US gallon / 8", "pint") \
    P(U, "cup", "cups|US cup|US cups", "US cup", VOLUME, GAL_M3 / 16, true, "defined: US gallon / 16", "uscup") \
    P(U, "tbsp", "tablespoon|tablespoons", "US tablespoon", VOLUME, GAL_M3 / 256, true, "defined: US gallon / 256", "tbsp") \
    P(U, "tsp", "teaspoon|teaspoons", "US teaspoon", VOLUME, GAL_M3 / 768, true, "defined: US gallon / 768", "tsp") \
    P(U, "imp gal", "imp gals|imperial gal|imperial gallon|imperial gallons|UK gal|UK gallon|UK gallons", "imperial gallon", VOLUME, \
      IMPGAL_M3, true, "SP 811", "brgallon") \
    P(U, "imp qt", "imperial qt|imperial quart|imperial quarts|UK qt", "imperial quart", VOLUME, IMPGAL_M3 / 4, true, \
      "defined: imperial gallon / 4", "brquart") \
    P(U, "imp pt", "imperial pt|imperial pint|imperial pints|UK pt|UK pint|UK pints", "imperial pint", VOLUME, IMPGAL_M3 / 8, true, \
      "defined: imperial gallon / 8", "brpint") \
    P(U, "imp fl oz", "imperial fl oz|imperial fluid ounce|imperial fluid ounces|UK fl oz", "imperial fluid ounce", VOLUME, \
      IMPGAL_M3 / 160, true, "defined: imperial gallon / 160", "brfloz") \
    P(U, "m3", "", "cubic metre", VOLUME, 1, true, "SP 811", "m^3") \
    P(U, "ft3", "", "cubic foot", VOLUME, FT3_M3, true, "defined: foot × foot × foot", "ft^3") \
    P(U, "in3", "", "cubic inch", VOLUME, IN3_M3, true, "defined: inch × inch × inch", "in^3")

/* A month and a year have no fixed length, so they have no row. */
#define UNIT_TABLE_TIME(U, P) \
    P(U, "min", "mins|minute|minutes", "minute", TIME, 60, true, "SP 811", "min") \
    P(U, "s", "sec|secs|second|seconds", "second", TIME, 1, true, "SP 811", "s") \
    P(U, "h", "hr|hrs|hour|hours", "hour", TIME, 3600, true, "SP 811", "hour") \
    P(U, "day", "d|days", "day", TIME, 86400, true, "SP 811", "day") \
    P(U, "week", "weeks|wk|wks", "week", TIME, 604800, true, "defined: 7 days", "week") \
    P(U, "ms", "millisecond|milliseconds", "millisecond", TIME, 0.001, true, "SP 811", "ms")

/* A temperature on its scale (UNIT_SCALE) is not a difference of temperatures: 10 degC is 50 degF, but 10 degC interval is 18 degF interval. */
#define UNIT_TABLE_TEMPERATURE(U, P) \
    U("degF", "°F|ºF|℉|° F|deg F|degree F|degrees F|F|fahrenheit|degree fahrenheit|degrees fahrenheit", "degree Fahrenheit", TEMPERATURE, \
      DEGF_K, 459.67 * 5.0 / 9.0, UNIT_SCALE, true, "SP 811", "tempF") \
    U("degC", "°C|ºC|℃|° C|deg C|degree C|degrees C|C|celsius|degree celsius|degrees celsius", "degree Celsius", TEMPERATURE, \
      1, 273.15, UNIT_SCALE, true, "SP 811", "tempC") \
    U("K", "kelvin|kelvins", "kelvin", TEMPERATURE, 1, 0, UNIT_SCALE, true, "SP 811", "tempK") \
    P(U, "degF interval", "", "difference of one degree Fahrenheit", TEMPERATURE, DEGF_K, true, "SP 811", "degF") \
    P(U, "degC interval", "", "difference of one degree Celsius", TEMPERATURE, 1, true, "SP 811", "degC") \
    P(U, "K interval", "", "difference of one kelvin", TEMPERATURE, 1, true, "SP 811", "K")

#define UNIT_TABLE_FLOW(U, P) \
    P(U, "gpm", "gal/min|US gpm|usgpm", "US gallon per minute", FLOW, GAL_M3 / 60, true, "defined: 231 in³ per minute", "gallon/min") \
    P(U, "L/min", "lpm|l/min", "litre per minute", FLOW, 0.001 / 60, true, "SP 811", "L/min") \
    P(U, "gph", "gal/h|US gph|usgph", "US gallon per hour", FLOW, GAL_M3 / 3600, true, "defined: 231 in³ per hour", "gallon/hour") \
    P(U, "L/h", "lph", "litre per hour", FLOW, 0.001 / 3600, true, "SP 811", "L/hour") \
    P(U, "m3/h", "cmh", "cubic metre per hour", FLOW, 1.0 / 3600, true, "SP 811", "m^3/hour") \
    P(U, "cfm", "acfm", "cubic foot per minute", FLOW, FT3_M3 / 60, true, "defined: foot × foot × foot per minute", "ft^3/min") \
    P(U, "imp gpm", "imp gal/min|igpm", "imperial gallon per minute", FLOW, IMPGAL_M3 / 60, true, "defined: imperial gallon per minute", \
      "brgallon/min")

/* A turn is counted, not measured in radians: 1 rpm is one in 60 seconds. */
#define UNIT_TABLE_SPEED(U, P) \
    P(U, "ft/min", "fpm", "foot per minute", SPEED, FT_M / 60, true, "SP 811", "ft/min") \
    P(U, "m/min", "", "metre per minute", SPEED, 1.0 / 60, true, "SP 811", "m/min") \
    P(U, "ft/s", "fps", "foot per second", SPEED, FT_M, true, "SP 811", "ft/s") \
    P(U, "m/s", "", "metre per second", SPEED, 1, true, "SP 811", "m/s") \
    P(U, "in/s", "ips", "inch per second", SPEED, IN_M, true, "SP 811", "in/s") \
    P(U, "mph", "mi/h", "mile per hour", SPEED, 1609.344 / 3600, true, "SP 811", "mile/hour") \
    P(U, "km/h", "kph|kmh", "kilometre per hour", SPEED, 1000.0 / 3600, true, "SP 811", "km/hour") \
    P(U, "rpm", "r/min", "turn per minute", FREQUENCY, 1.0 / 60, true, "defined: one in 60 s", "1/min") \
    P(U, "Hz", "hertz", "hertz", FREQUENCY, 1, true, "SP 811", "Hz") \
    P(U, "kHz", "kilohertz", "kilohertz", FREQUENCY, 1000, true, "SP 811", "kHz") \
    P(U, "spm", "", "stroke per minute", FREQUENCY, 1.0 / 60, true, "defined: one in 60 s", "1/min") \
    P(U, "cph", "", "car per hour", FREQUENCY, 1.0 / 3600, true, "defined: one in 3600 s", "1/hour")

/* Hardness is given as a mass of calcium carbonate per volume of water; that 1 ppm is 1 mg/L there holds for thin solutions in water. */
#define UNIT_TABLE_RATIO(U, P) \
    P(U, "%", "percent|per cent|pct", "percent", NONE, 0.01, true, "SP 811", "percent") \
    P(U, "ppm", "parts per million", "part per million", NONE, 1e-6, true, "SP 811", "ppm") \
    U("1:N", "", "parts of product to parts of water, 1/(N+1) of the whole", NONE, 1, 0, UNIT_PARTS, true, "practice", "") \
    U("1 in N", "", "one part in N of the whole, 1/N", NONE, 1, 0, UNIT_ONE_IN, true, "practice", "") \
    P(U, "mg/L", "ppm|parts per million", "milligram per litre", DENSITY, 0.001, true, "SP 811", "mg/L") \
    P(U, "gpg", "grain/gal|grains/gal|grains per gallon", "grain per US gallon, as calcium carbonate", DENSITY, LB_KG / 7000 / GAL_M3, true, \
      "defined: grain over 231 in³", "grain/gallon") \
    P(U, "°fH", "ºfH|fH", "French degree of hardness, 10 mg/L as calcium carbonate", DENSITY, 0.01, true, "its definition: 10 mg/L", "10 mg/L") \
    P(U, "°dH", "ºdH|dH", "German degree of hardness, 17.848 mg/L as calcium carbonate", DENSITY, CACO3_IN_CAO * 0.01, false, \
      "its definition, 10 mg/L of CaO, by the masses of Ca, C and O", "10 mg (calcium + carbon + 3 oxygen) / (L (calcium + oxygen))") \
    P(U, "g/L", "", "gram per litre", DENSITY, 1, true, "SP 811", "g/L")

#define UNIT_TABLE_FORCE(U, P) \
    P(U, "lbf", "lb|lbs|pound|pounds|pound-force", "pound-force", FORCE, LBF_N, true, "defined: pound × standard gravity", "lbf") \
    P(U, "N", "newton|newtons", "newton", FORCE, 1, true, "SP 811", "N") \
    P(U, "kgf", "kp", "kilogram-force", FORCE, GRAVITY, true, "SP 811", "kgf") \
    P(U, "ft lbf", "ft-lbf|ft lb|ft-lb|ft lbs|ft-lbs|lb ft|lb-ft|lbf ft|foot pound|foot pounds|foot-pound|foot-pounds", \
      "foot pound-force", ENERGY, FT_M * LBF_N, true, "defined: foot × pound × standard gravity", "ft lbf") \
    P(U, "in lbf", "in-lbf|in lb|in-lb|in lbs|in-lbs|lb in|lb-in|inch pound|inch pounds|inch-pound|inch-pounds", "inch pound-force", ENERGY, \
      IN_M * LBF_N, true, "defined: inch × pound × standard gravity", "in lbf") \
    P(U, "N m", "Nm|newton metre|newton metres|newton meter|newton meters", "newton metre", ENERGY, 1, true, "SP 811", "N m") \
    P(U, "J", "joule|joules", "joule", ENERGY, 1, true, "SP 811", "J") \
    P(U, "kWh", "kW h|kilowatt hour|kilowatt hours|kilowatt-hour|kilowatt-hours", "kilowatt hour", ENERGY, 3.6e6, true, "SP 811", "kW hour") \
    P(U, "Btu", "", "British thermal unit, International Table", ENERGY, 1055.05585262, true, \
      "defined: 4186.8 J × pound over kilogram × 5/9", "btu_IT")

#define UNIT_TABLE_ELECTRIC(U, P) \
    P(U, "A", "amp|amps|ampere|amperes", "ampere", CURRENT, 1, true, "SP 811", "A") \
    P(U, "mA", "milliamp|milliamps|milliampere|milliamperes", "milliampere", CURRENT, 0.001, true, "SP 811", "mA") \
    P(U, "V", "volt|volts|VAC|VDC", "volt", VOLTAGE, 1, true, "SP 811", "V") \
    P(U, "mV", "millivolt|millivolts", "millivolt", VOLTAGE, 0.001, true, "SP 811", "mV") \
    P(U, "ohm", "ohms|Ω|Ω", "ohm", RESISTANCE, 1, true, "SP 811", "ohm") \
    P(U, "kohm", "kohms|kΩ|kΩ|kilohm|kilohms", "kilohm", RESISTANCE, 1000, true, "SP 811", "kohm") \
    P(U, "Mohm", "Mohms|MΩ|MΩ|megohm|megohms", "megohm", RESISTANCE, 1e6, true, "SP 811", "Mohm") \
    P(U, "hp", "horsepower", "mechanical horsepower, 550 ft lbf/s", POWER, 550 * FT_M * LBF_N, true, "defined: 550 ft lbf/s", "hp") \
    P(U, "kW", "kilowatt|kilowatts", "kilowatt", POWER, 1000, true, "SP 811", "kW") \
    P(U, "W", "watt|watts", "watt", POWER, 1, true, "SP 811", "W") \
    P(U, "mW", "milliwatt|milliwatts", "milliwatt", POWER, 0.001, true, "SP 811", "mW") \
    P(U, "MW", "megawatt|megawatts", "megawatt", POWER, 1e6, true, "SP 811", "MW") \
    P(U, "mS", "millisiemens", "millisiemens", CONDUCTANCE, 0.001, true, "SP 811", "mS") \
    P(U, "µS", "μS|uS|microsiemens", "microsiemens", CONDUCTANCE, 1e-6, true, "SP 811", "uS") \
    P(U, "µS/cm", "μS/cm|uS/cm", "microsiemens per centimetre", CONDUCTIVITY, 1e-6 / 0.01, true, "SP 811", "uS/cm") \
    P(U, "mS/cm", "", "millisiemens per centimetre", CONDUCTIVITY, 0.001 / 0.01, true, "SP 811", "mS/cm")

/* What is counted has no dimension: cars/h is a number per time. */
#define COUNT_UNIT(UNIT, plural, singular) \
    UNIT(plural, singular, "a count", NONE, 1, 0, UNIT_PLAIN, true, "practice", "1")
#define UNIT_TABLE_COUNT(U, P) \
    COUNT_UNIT(U, "cars", "car") COUNT_UNIT(U, "vehicles", "vehicle") COUNT_UNIT(U, "washes", "wash") \
    COUNT_UNIT(U, "pulses", "pulse") COUNT_UNIT(U, "strokes", "stroke") \
    COUNT_UNIT(U, "turns", "turn|rev|revs|revolution|revolutions") COUNT_UNIT(U, "steps", "step") COUNT_UNIT(U, "drops", "drop") \
    COUNT_UNIT(U, "clicks", "click") COUNT_UNIT(U, "notches", "notch") COUNT_UNIT(U, "times", "time") \
    COUNT_UNIT(U, "cycles", "cycle") COUNT_UNIT(U, "counts", "count") COUNT_UNIT(U, "pieces", "piece|pcs|pc") \
    COUNT_UNIT(U, "nozzles", "nozzle") COUNT_UNIT(U, "teeth", "tooth") COUNT_UNIT(U, "pH", "")
/* clang-format on */

#endif
