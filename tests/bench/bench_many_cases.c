/* Makes a folder with many closed cases, to measure `telltale cases`:
 *     bench_many_cases FOLDER 100000 && time telltale cases FOLDER --count */
#include <stdio.h>
#include <stdlib.h>

#include "many_cases.h"

int main(int argc, char **argv)
{
    if (argc != 3) {
        fputs("bench_many_cases FOLDER NUMBER\n", stderr);
        return 2;
    }
    many_cases(argv[1], (uint32_t)strtoul(argv[2], NULL, 10));
    return 0;
}
