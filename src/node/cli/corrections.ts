import { correctionOf, type Disagreement, disagreements, offInWords } from '../../core/programme/index.ts';
import { writtenAmount } from '../../core/spec/index.ts';
import { isoDay, printClockTime } from '../../core/time/index.ts';
import { insertYaml } from '../../core/write/index.ts';
import { saveText } from '../files/save.ts';
import { command, EXIT } from './command.ts';

export default command({
  name: 'corrections',
  summary: 'what recordings say or show that the spec table no longer agrees with; --accept writes the corrections',
  args: ['[lesson]'],
  options: [
    { name: 'accept', help: 'write a correction for each of them' },
    { name: 'by', value: 'ROLE', help: 'role of who accepts' },
    { name: 'note', value: 'TEXT', help: 'why the value changed' },
    { name: 'json', help: 'one JSON document' },
  ],

  async run([lesson], flags, { load, content, now, out, say }) {
    const { shop, texts } = await load();
    if (lesson !== undefined && !shop.lessons.some(({ id }) => id === lesson)) {
      say(`no lesson "${lesson}"; there are ${shop.lessons.map(({ id }) => id).join(', ')}`);
      return EXIT.callIsWrong;
    }
    const found = disagreements(shop).filter((each) => lesson === undefined || each.lesson.id === lesson);
    const open = found.filter((each) => !correctionOf(shop, each));
    if (flags.has('json')) out(JSON.stringify({ open: open.map(asJson), accepted: shop.corrections.length }));
    else
      out(
        open.length === 0
          ? 'nothing said or shown disagrees with the spec table, or it is corrected'
          : open.map(inWords).join('\n'),
      );
    if (!flags.has('accept')) return EXIT.fine;
    for (const [id, own] of byLesson(open)) {
      const file = `corrections/${id}.yaml`;
      let text = texts.get(file);
      for (const each of own) {
        const entry = {
          step: each.passage.id,
          at: printClockTime(each.at),
          spec: each.spec,
          [each.how]: each.heard.text.replaceAll(/\s+/g, ' '),
          on: isoDay(now()),
          by: flags.text('by'),
          note: flags.text('note'),
        };
        const given = Object.fromEntries(Object.entries(entry).filter(([, value]) => value !== undefined));
        const source: string = text ?? 'corrections: []\n';
        const change = insertYaml(source, ['corrections'], Number.MAX_SAFE_INTEGER, given as Record<string, string>);
        if (!change.ok) {
          say(`${file}: ${change.problem}; ${change.help}`);
          return EXIT.contentHasErrors;
        }
        text = change.value;
      }
      const saved = await saveText(content, { file, was: texts.get(file), text: text ?? '' });
      if (!saved.ok) {
        say(`${saved.problem}; ${saved.help}`);
        return EXIT.outsideFailed;
      }
      say(`${own.length} ${own.length === 1 ? 'correction' : 'corrections'} written to ${file}`);
    }
    return EXIT.fine;
  },
});

/** One of each step and row: the card stays until the step ends. */
function byLesson(open: readonly Disagreement[]): ReadonlyMap<string, readonly Disagreement[]> {
  const groups = new Map<string, Disagreement[]>();
  for (const each of open) {
    const own = groups.get(each.lesson.id) ?? [];
    if (!own.some(({ passage, spec }) => passage.id === each.passage.id && spec === each.spec)) own.push(each);
    groups.set(each.lesson.id, own);
  }
  return groups;
}

function asJson({ lesson, passage, at, heard, spec, rows, critical, how }: Disagreement) {
  const each = rows.map(({ whose, heldUntil, difference: { part, off, slip } }) => ({
    ...(whose ? { for: whose } : {}),
    expected: writtenAmount(part.amount, part.kind),
    off,
    unit: part.amount.unit,
    ...(slip ? { likelySlip: slip } : {}),
    ...(heldUntil ? { heldUntil } : {}),
  }));
  const [first] = each;
  return {
    lesson: lesson.id,
    step: passage.id,
    at: printClockTime(at),
    [how]: heard.text,
    spec,
    ...first,
    rows: each,
    critical,
  };
}

function inWords(each: Disagreement): string {
  const { lesson, step, at, rows, spec, critical } = asJson(each);
  const values = rows.map(
    (row) =>
      `${row.for ? `${row.for}: ` : ''}${row.expected}, ${offInWords(row.off, row.unit)}${row.heldUntil ? `, right until ${row.heldUntil}` : ''}`,
  );
  return `${lesson} ${at} ${step}: "${each.heard.text}" is ${each.how}, ${spec} is ${values.join('; ')}${critical ? ' (critical)' : ''}`;
}
