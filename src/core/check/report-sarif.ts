import type { Log, ReportingDescriptor, Result } from 'sarif';
import { type Diagnostic, encodePath, type Place, type Severity } from '../model/index.ts';

const LEVEL: Readonly<Record<Severity, Result.level>> = { error: 'error', warning: 'warning', info: 'note' };

/**
 * Diagnostics as SARIF 2.1.0 (OASIS standard), columns in UTF-16 units.
 *
 * @param contentUri base of the content paths, ending in `/`; they stay relative to it
 */
export function reportSarif(diagnostics: readonly Diagnostic[], contentUri: string): string {
  const ids = [...new Set(diagnostics.map(({ rule }) => rule))].toSorted();
  const rules: ReportingDescriptor[] = ids.map((id) => {
    const first = diagnostics.find(({ rule }) => rule === id);
    return {
      id,
      shortDescription: { text: first?.why ?? id },
      defaultConfiguration: { level: LEVEL[first?.severity ?? 'error'] },
    };
  });
  const log: Log = {
    $schema: 'https://json.schemastore.org/sarif-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: { driver: { name: 'liftside', rules } },
        columnKind: 'utf16CodeUnits',
        originalUriBaseIds: { CONTENT: { uri: contentUri } },
        results: diagnostics.map((d) => ({
          ruleId: d.rule,
          ruleIndex: ids.indexOf(d.rule),
          level: LEVEL[d.severity],
          message: { text: `${d.message}. ${d.help}` },
          locations: [location(d.place)],
          ...relatedLocations(d),
        })),
      },
    ],
  };
  return JSON.stringify(log, null, 2);
}

/** What explains a finding, and what follows from the same cause. */
function relatedLocations({ see, also = [] }: Diagnostic): Pick<Result, 'relatedLocations'> {
  const related = [
    ...(see ? [{ ...location(see.place), message: { text: see.note } }] : []),
    ...also.map(({ place, message }) => ({ ...location(place), message: { text: message } })),
  ];
  return related.length > 0 ? { relatedLocations: related } : {};
}

function location({ file, start, end }: Place) {
  return {
    physicalLocation: {
      artifactLocation: { uri: encodePath(file), uriBaseId: 'CONTENT' },
      region: { startLine: start.line, startColumn: start.column, endLine: end.line, endColumn: end.column },
    },
  };
}
