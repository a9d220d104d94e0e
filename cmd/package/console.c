/* Runs a command line in a console of its own, without handing its output on,
 * as a prompt does with a program that has no console; then prints what stands
 * in the console to the file that the first argument names. For tests. */
#include <windows.h>
#include <wchar.h>

int wmain(int argc, wchar_t **argv) {
  if (argc != 3) return 2;
  FreeConsole();
  if (!AllocConsole()) return 3;
  SECURITY_ATTRIBUTES ours = {sizeof ours, NULL, FALSE};
  HANDLE screen = CreateFileW(L"CONOUT$", GENERIC_READ | GENERIC_WRITE, FILE_SHARE_READ | FILE_SHARE_WRITE, &ours, OPEN_EXISTING, 0, NULL);
  SetStdHandle(STD_INPUT_HANDLE, NULL);
  SetStdHandle(STD_OUTPUT_HANDLE, NULL);
  SetStdHandle(STD_ERROR_HANDLE, NULL);
  STARTUPINFOW start = {.cb = sizeof start};
  PROCESS_INFORMATION made;
  if (!CreateProcessW(NULL, argv[2], NULL, NULL, FALSE, 0, NULL, NULL, &start, &made)) return 4;
  if (WaitForSingleObject(made.hProcess, 60000) != WAIT_OBJECT_0) return 5;
  CONSOLE_SCREEN_BUFFER_INFO info;
  if (!GetConsoleScreenBufferInfo(screen, &info)) return 6;
  HANDLE out = CreateFileW(argv[1], GENERIC_WRITE, 0, NULL, CREATE_ALWAYS, 0, NULL);
  for (SHORT row = 0; row <= info.dwCursorPosition.Y; row++) {
    wchar_t line[512];
    char text[2048];
    DWORD got = 0, wrote;
    COORD from = {0, row};
    ReadConsoleOutputCharacterW(screen, line, info.dwSize.X < 512 ? info.dwSize.X : 512, from, &got);
    while (got > 0 && line[got - 1] == L' ') got--;
    int size = WideCharToMultiByte(CP_UTF8, 0, line, got, text, sizeof text - 1, NULL, NULL);
    text[size++] = '\n';
    WriteFile(out, text, size, &wrote, NULL);
  }
  CloseHandle(out);
  return 0;
}
