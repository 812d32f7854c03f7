import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { type AmountWritten, type SpecRowWritten, specsSchema } from '../../../src/core/model/index.ts';

/** Units as a person says them: one, several. */
const UNITS: Readonly<Record<string, readonly [string, string]>> = {
  N·m: ['newton metre', 'newton metres'],
  mm: ['millimetre', 'millimetres'],
  g: ['gram', 'grams'],
  mL: ['millilitre', 'millilitres'],
  km: ['kilometre', 'kilometres'],
  month: ['month', 'months'],
  year: ['year', 'years'],
  '°': ['degree', 'degrees'],
  '°C': ['degree Celsius', 'degrees Celsius'],
};

const number = (value: number) => value.toLocaleString('en-GB', { maximumFractionDigits: 3 });

function withUnit(value: number, unit: string): string {
  const names = UNITS[unit];
  if (!names) throw new Error(`no spoken name for the unit ${unit}`);
  return `${number(value)} ${value === 1 ? names[0] : names[1]}`;
}

/** An amount in words that leave no doubt about its limits. */
export function spokenAmount({ nominal, plusMinus, plus, minus, min, max, unit }: AmountWritten): string {
  if (nominal !== undefined && plusMinus !== undefined)
    return `${withUnit(nominal, unit)}, plus or minus ${number(plusMinus)}`;
  if (nominal !== undefined && plus !== undefined && minus !== undefined)
    return `between ${number(round(nominal - minus))} and ${withUnit(round(nominal + plus), unit)}`;
  if (min !== undefined && max !== undefined) return `between ${number(min)} and ${withUnit(max, unit)}`;
  if (min !== undefined) return `at least ${withUnit(min, unit)}`;
  if (max !== undefined) return `not more than ${withUnit(max, unit)}`;
  if (nominal !== undefined) return withUnit(nominal, unit);
  throw new Error('an amount without a number');
}

const round = (value: number) => Number(value.toFixed(6));

/** The rows of the demo machine's spec table. */
export function readRows(content = 'content'): readonly SpecRowWritten[] {
  return specsSchema.parse(parse(readFileSync(`${content}/specs/tarn-420.yaml`, 'utf8'))).specs;
}

/** Puts the spoken values of the spec table into a line. @throws Error where a row is unknown or not unique */
export function withValues(line: string, rows: readonly SpecRowWritten[]): string {
  return line.replace(/\{([a-z0-9-]+)(?:@(\d{4}))?(~)?\}/g, (_, id: string, year?: string, bare?: string) => {
    const found = rows.filter((row) => row.id === id && (!year || covers(row, Number(year))));
    const [row] = found;
    if (!row || found.length > 1) throw new Error(`${found.length} rows ${id} for the line: ${line}`);
    return bare ? glued(bareValue(row)) : spokenRow(row);
  });
}

function covers({ years }: SpecRowWritten, year: number): boolean {
  const [from = '', to = from] = String(years ?? '-').split('-');
  return year >= Number(from || 0) && year <= Number(to || 9999);
}

function bareValue({ nominal, min, max, unit = '' }: SpecRowWritten): string {
  return withUnit(nominal ?? min ?? max ?? Number.NaN, unit);
}

function spokenRow(row: SpecRowWritten): string {
  if (row.stages) return row.stages.map((stage) => glued(spokenAmount(stage))).join(', then ');
  if (row.distance ?? row.time) {
    const parts = [row.distance, row.time].filter((part) => part !== undefined);
    return (
      parts.map((part) => glued(spokenAmount(part))).join(' or ') + (parts.length > 1 ? ', whichever comes first' : '')
    );
  }
  const { nominal, plusMinus, plus, minus, min, max, unit = '' } = row;
  // Where both an aim and a limit are written, the limit is what is measured against.
  return glued(
    spokenAmount(
      min !== undefined || max !== undefined
        ? ({ min, max, unit } as AmountWritten)
        : ({ nominal, plusMinus, plus, minus, unit } as AmountWritten),
    ),
  );
}

/** A value that captions keep on one line: its blanks are no-break spaces. */
const glued = (value: string) => value.replaceAll(' ', '\u00a0');
