import {
  correctionOf,
  correctionOfWithdrawn,
  correctionTexts,
  type Disagreement,
  disagreements,
  offInWords,
  type WithdrawnSaid,
  withdrawnSaid,
} from '../../core/programme/index.ts';
import { plural } from '../../core/read/index.ts';
import { writtenAmount } from '../../core/spec/index.ts';
import { isoDay, printClockTime } from '../../core/time/index.ts';
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
    const gone = withdrawnSaid(shop).filter(
      (each) => (lesson === undefined || each.lesson.id === lesson) && !correctionOfWithdrawn(shop, each),
    );
    if (flags.has('json'))
      out(
        JSON.stringify({
          open: open.map(asJson),
          withdrawn: gone.map(goneAsJson),
          accepted: shop.corrections.length,
        }),
      );
    else
      out(
        open.length + gone.length === 0
          ? 'nothing said or shown disagrees with the spec table, or it is corrected'
          : [...open.map(inWords), ...gone.map(goneInWords)].join('\n'),
      );
    if (!flags.has('accept')) return EXIT.fine;
    const acceptance = { on: isoDay(now()), by: flags.text('by'), note: flags.text('note') };
    const changes = correctionTexts([...open, ...gone], texts, acceptance);
    if (!changes.ok) {
      say(`${changes.problem}; ${changes.help}`);
      return EXIT.contentHasErrors;
    }
    for (const { count, ...change } of changes.value) {
      const saved = await saveText(content, change);
      if (!saved.ok) {
        say(`${saved.problem}; ${saved.help}`);
        return EXIT.outsideFailed;
      }
      say(`${plural(count, 'correction')} written to ${change.file}`);
    }
    return EXIT.fine;
  },
});

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

function goneAsJson({ lesson, passage, at, heard, how, spec, row }: WithdrawnSaid) {
  const { withdrawn, critical } = row.written;
  return {
    ...{ lesson: lesson.id, step: passage.id, at: printClockTime(at), [how]: heard.text, spec },
    ...{ withdrawn, critical: critical === true },
  };
}

function goneInWords(each: WithdrawnSaid): string {
  const { lesson, at, step, spec, critical, withdrawn } = goneAsJson(each);
  return `${lesson} ${at} ${step}: "${each.heard.text}" is ${each.how}, ${spec} was withdrawn on ${withdrawn?.on}: ${withdrawn?.why}${critical ? ' (critical)' : ''}`;
}
