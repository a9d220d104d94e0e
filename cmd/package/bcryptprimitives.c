/* Stands in, for tests alone, where wine is too old to have
 * bcryptprimitives.dll: the one function of it that Go asks for. Windows has
 * had it since version 7. */
#include <windows.h>

BOOLEAN NTAPI SystemFunction036(PVOID buffer, ULONG length);

__declspec(dllexport) BOOL WINAPI ProcessPrng(PBYTE buffer, SIZE_T length) {
  return SystemFunction036(buffer, (ULONG)length);
}
