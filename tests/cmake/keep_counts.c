/* Linked into every program of a build that counts branches (coverage.cmake): what a process
 * counted stays, too, when it ends by a signal of its own or without its last rites. */
void __gcov_dump(void);
void __gcov_reset(void);
int __real_raise(int number);
_Noreturn void __real__exit(int status);

int __wrap_raise(int number);
int __wrap_raise(int number)
{
    __gcov_dump();
    __gcov_reset(); /* it may go on */
    return __real_raise(number);
}

_Noreturn void __wrap__exit(int status);
_Noreturn void __wrap__exit(int status)
{
    __gcov_dump();
    __real__exit(status);
}
