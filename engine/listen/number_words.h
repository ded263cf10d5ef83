/* Numbers and units as people say them, in English and Spanish. NUMBER(value, words): what stands
 * alone; TENS can be followed by a unit's word ("forty five", "cuarenta y cinco"). UNIT(words,
 * unit): what the table of units doesn't know, or means otherwise; the first that is of the wanted
 * kind counts. Written as unicode_plain folds them. */
#ifndef TT_LISTEN_NUMBER_WORDS_H
#define TT_LISTEN_NUMBER_WORDS_H

#define NUMBER_WORDS(NUMBER) \
    NUMBER(0, "zero|cero|zilch") \
    NUMBER(1, "one|uno|una") \
    NUMBER(2, "two|dos") \
    NUMBER(3, "three|tres") \
    NUMBER(4, "four|cuatro") \
    NUMBER(5, "five|cinco") \
    NUMBER(6, "six|seis") \
    NUMBER(7, "seven|siete") \
    NUMBER(8, "eight|ocho") \
    NUMBER(9, "nine|nueve") \
    NUMBER(10, "ten|diez") \
    NUMBER(11, "eleven") \
    NUMBER(12, "twelve|doce") \
    NUMBER(13, "thirteen|trece") \
    NUMBER(14, "fourteen|forteen|catorce") \
    NUMBER(15, "fifteen|quince") \
    NUMBER(16, "sixteen|dieciseis|diez y seis") \
    NUMBER(17, "seventeen|diecisiete") \
    NUMBER(18, "eighteen|dieciocho") \
    NUMBER(19, "nineteen|diecinueve") \
    NUMBER(21, "veintiuno|veintiun") \
    NUMBER(22, "veintidos") \
    NUMBER(23, "veintitres") \
    NUMBER(24, "veinticuatro") \
    NUMBER(25, "veinticinco") \
    NUMBER(26, "veintiseis") \
    NUMBER(27, "veintisiete") \
    NUMBER(28, "veintiocho") \
    NUMBER(29, "veintinueve") \
    NUMBER(12, "a dozen|una docena")

/* Only a choice is named so. */
#define ORDINAL_WORDS(NUMBER) \
    NUMBER(1, "first|primero|primera") \
    NUMBER(2, "second|segundo|segunda") \
    NUMBER(3, "third|tercero|tercera") \
    NUMBER(4, "fourth|cuarto|cuarta") \
    NUMBER(5, "fifth|quinto|quinta") \
    NUMBER(6, "sixth|sexto|sexta")

#define TENS_WORDS(NUMBER) \
    NUMBER(20, "twenty|veinte") \
    NUMBER(30, "thirty|treinta") \
    NUMBER(40, "forty|fourty|cuarenta") \
    NUMBER(50, "fifty|cincuenta") \
    NUMBER(60, "sixty|sesenta") \
    NUMBER(70, "seventy|setenta") \
    NUMBER(80, "eighty|ochenta") \
    NUMBER(90, "ninety|ninty|noventa") \
    NUMBER(100, "hundred|one hundred|a hundred|cien|ciento") \
    NUMBER(200, "two hundred|doscientos|doscientas") \
    NUMBER(300, "three hundred|trescientos|trescientas") \
    NUMBER(400, "four hundred|cuatrocientos|cuatrocientas") \
    NUMBER(500, "five hundred|quinientos|quinientas") \
    NUMBER(600, "six hundred|seiscientos|seiscientas") \
    NUMBER(700, "seven hundred|setecientos|setecientas") \
    NUMBER(800, "eight hundred|ochocientos|ochocientas") \
    NUMBER(900, "nine hundred|novecientos|novecientas")

#define HALF_WORDS "and a half|y medio|y media|point five|punto cinco"

/* Beside them a number names a choice: "number 3", "la tres". */
#define MENU_WORDS \
    "number|no|num|option|choice|answer|the|one|la|el|opcion|numero|respuesta|nr|its|it " \
    "is|es|line|last|ultima|ultimo"

/* A number that is none of its own: "forty something", "40 or 50", "entre 40 y 50". */
#define VAGUE_WORDS "something|or|to|between|entre|o|a|hasta|and something|y algo|y pico|plus"

#define UNIT_WORDS(UNIT) \
    UNIT("libras|libra|pounds|pound|lbs|lb|pounds of air|libras de aire|libras de " \
         "presion|psis|pse|psy", \
         "psi") \
    UNIT("kilos|kilo|kilos de presion", "kgf/cm2") \
    UNIT("bares", "bar") \
    UNIT("galones por minuto|gpm", "gal/min") \
    UNIT("litros por minuto|lpm", "L/min") \
    UNIT("galones por hora|gph", "gal/h") \
    UNIT("litros por segundo|lps", "L/s") \
    UNIT("galones|galon", "gal") \
    UNIT("litros|litro", "L") \
    UNIT("mililitros", "mL") \
    UNIT("libras|libra", "lb") \
    UNIT("kilos|kilo|kilogramos", "kg") \
    UNIT("gramos|gramo", "g") \
    UNIT("onzas|onza", "oz") \
    UNIT("pies|pie", "ft") \
    UNIT("pulgadas|pulgada", "in") \
    UNIT("metros|metro", "m") \
    UNIT("centimetros", "cm") \
    UNIT("segundos|segundo|secs", "s") \
    UNIT("minutos|minuto|mins", "min") \
    UNIT("horas|hora", "h") \
    UNIT("celsius|centigrados|grados celsius|grados centigrados|grados c|degrees c|degrees " \
         "celsius|c", \
         "degC") \
    UNIT("fahrenheit|grados fahrenheit|grados f|degrees f|degrees fahrenheit|f", "degF") \
    UNIT("por ciento|porciento|percent|per cent", "%") \
    UNIT("carros por hora|coches por hora|cars an hour|cars per hour|carros la hora", "cars/h") \
    UNIT("vueltas por minuto|revoluciones por minuto|revoluciones", "rpm")

#endif
