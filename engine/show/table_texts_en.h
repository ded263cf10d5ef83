/* What stands beside a table of causes and signs, in English. X(id, text); inserts as in texts_en.h. */
#ifndef TT_SHOW_TABLE_TEXTS_EN_H
#define TT_SHOW_TABLE_TEXTS_EN_H

#define TABLE_TEXTS_EN(X) \
    X(TABLE_HOW_TO_READ, \
      "Of each cause how often it shows a sign, as the book has it, and how strongly the sign then speaks for it, in decibels: at 0 it tells " \
      "nothing, each 10 make the odds ten times as high, and below 0 it speaks against it.") \
    X(TABLE_NO_PART, "No part named") \
    X(TABLE_NO_SIGN, "No sign points to it.") \
    X(TABLE_CERTAIN, "certain") \
    X(TABLE_RULED_OUT, "ruled out") \
    X(TABLE_CAUSES, "Causes and their signs") \
    X(TABLE_SIGNS, "Signs and their causes") \
    X(TABLE_CAUSE, "Cause") \
    X(TABLE_HOW_OFTEN, "How often it is met") \
    X(TABLE_SIGN_HEAD, "Sign") \
    X(TABLE_OTHERWISE_HEAD, "With other causes") \
    X(TABLE_CHANCE, "With this cause") \
    X(TABLE_STRENGTH, "Strength")

#endif
