/** The code of what the system refused, such as `EACCES` (POSIX.1-2024); nothing for any other error. */
export function errorCode(error: unknown): string | undefined {
  return error instanceof Error && 'code' in error ? String(error.code) : undefined;
}
