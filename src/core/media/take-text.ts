import { ok, type Parsed } from '../time/index.ts';
import { setYaml, setYamlList } from '../write/index.ts';
import type { TakePlan } from './take-plan.ts';

/**
 * The text of a new recording's file. All that it says is known; that a release is missing stays to be seen to.
 *
 * @param captions a caption file in recording time that came with the footage
 */
export function takeText(title: string, plan: TakePlan, captions?: string): Parsed<string> {
  const { files, rate, start, angles } = plan;
  const scalars = { title, rate, start, captions };
  const lists = { files, angles: angles.map(({ id, file }) => ({ id, file })) };
  // The order of the keys and the layout of the lists; what they hold is put in below.
  const layout = [
    'title: x',
    'files:\n  - {file: x}',
    ...(rate === undefined ? [] : ['rate: ""']),
    ...(start === undefined ? [] : ['start: ""']),
    ...(captions === undefined ? [] : ['captions: x']),
    ...(angles.length === 0 ? [] : ['angles:\n  - {id: x, file: x}']),
    'people:\n  - {role: instructor, release: missing}   # on-file once the signed release is there\n',
  ].join('\n');
  const withScalars = Object.entries(scalars).reduce<Parsed<string>>(
    (text, [key, value]) => (text.ok && value !== undefined ? setYaml(text.value, [key], value) : text),
    ok(layout),
  );
  return Object.entries(lists).reduce<Parsed<string>>(
    (text, [key, rows]) =>
      text.ok && rows.length > 0
        ? setYamlList(
            text.value,
            [key],
            rows.map((row) => ({ ...row })),
          )
        : text,
    withScalars,
  );
}
