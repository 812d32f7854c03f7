import type { Diagnostic } from '../model/index.ts';
import { count } from './check.ts';

/** The JSON of `check --json`: `{diagnostics: [{rule, severity, file, line, column, message, help, …}], counts}`. */
export function reportJson(diagnostics: readonly Diagnostic[]): string {
  const told = diagnostics.map(({ rule, severity, place, message, why, help, see, also }) => ({
    rule,
    severity,
    file: place.file,
    line: place.start.line,
    column: place.start.column,
    endLine: place.end.line,
    endColumn: place.end.column,
    message,
    why,
    help,
    ...(also && {
      also: also.map((each) => ({
        rule: each.rule,
        file: each.place.file,
        line: each.place.start.line,
        column: each.place.start.column,
        message: each.message,
      })),
    }),
    ...(see && {
      see: { file: see.place.file, line: see.place.start.line, column: see.place.start.column, note: see.note },
    }),
  }));
  return JSON.stringify({ diagnostics: told, counts: count(diagnostics) }, null, 2);
}
