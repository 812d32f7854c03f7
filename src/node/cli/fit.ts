import {
  fitClass,
  fitJson,
  offersFor,
  partLookup,
  printFit,
  printOffers,
  type Tried,
  textWithChanges,
  type WhatIf,
  whatIf,
  withOffers,
} from '../../core/fit/index.ts';
import { didYouMean } from '../../core/read/index.ts';
import { saveText } from '../files/index.ts';
import { loadSolver } from '../programs/index.ts';
import { command, EXIT, type ExitCode, type Flags, OutsideFailure } from './command.ts';

export default command({
  name: 'fit',
  summary: 'fits a class into its slot: run sheet, what to leave out, how sure it is; and what would be if',
  args: ['<class>'],
  options: [
    { name: 'attendees', value: 'N', help: 'try it with so many people' },
    { name: 'slot', value: 'H:MM', help: 'try it in so much time' },
    { name: 'without', value: 'ID', many: true, help: 'try it without this block' },
    { name: 'with', value: 'ID=TREATMENT', many: true, help: 'try it with this block, given in this way' },
    { name: 'at', value: 'ID=TIME', many: true, help: 'try it with this block starting at this time, such as 10:45' },
    { name: 'keep', help: 'write what was tried into the class file' },
    { name: 'json', help: 'one JSON document, times in seconds from the start of the class' },
    { name: 'learned', help: 'plan with the minutes that earlier classes took, not with the estimates' },
  ],

  async run([id = ''], flags, { load, out, say, content }) {
    const { shop, texts } = await load();
    const shopClass = shop.classes.find((c) => c.id === id);
    if (!shopClass) {
      if (shop.broken.has(id)) {
        say(`the class "${id}" cannot be read; liftside check says why`);
        return EXIT.contentHasErrors;
      }
      say(
        `no class "${id}": ${didYouMean(
          id,
          shop.classes.map((c) => c.id),
        )}`,
      );
      return EXIT.callIsWrong;
    }
    const tried = whatIf(shopClass, whatIfOf(flags));
    if (!tried.ok) {
      say(`${tried.problem}\n${tried.help}`);
      return EXIT.callIsWrong;
    }
    const offers = offersFor(tried.value.shopClass, shop);
    const taken = flags.has('learned') ? withOffers(tried.value.shopClass, offers) : tried.value.shopClass;
    const fit = fitClass(taken, partLookup(shop), await loadSolver());
    out(
      flags.has('json')
        ? JSON.stringify(fitJson(fit, offers), null, 2)
        : [printFit(fit), ...printOffers(fit, offers)].join('\n'),
    );
    for (const { block, treatment, lesson } of fit.unknown)
      say(
        `the time of "${block}" as "${treatment}" is not known: lesson ${lesson} has no such part, or no measured footage`,
      );
    const kept = flags.has('keep') ? await keep(tried.value, fit.fits, texts, content, say) : EXIT.fine;
    return kept !== EXIT.fine ? kept : fit.fits ? EXIT.fine : EXIT.contentHasErrors;
  },
});

function whatIfOf(flags: Flags): WhatIf {
  const [attendees, slot] = [flags.text('attendees'), flags.text('slot')];
  return {
    ...(attendees !== undefined && { attendees }),
    ...(slot !== undefined && { slot }),
    without: flags.texts('without'),
    with: flags.texts('with'),
    at: flags.texts('at'),
  };
}

/** Writes what was tried into the class file: each value at its place, all or none. */
async function keep(
  { shopClass, changes }: Tried,
  fits: boolean,
  texts: ReadonlyMap<string, string>,
  content: string,
  say: (text: string) => void,
): Promise<ExitCode> {
  const { file } = shopClass.origin.place;
  const was = texts.get(file);
  if (changes.length === 0 || was === undefined) {
    say('nothing to keep: no change was tried');
    return EXIT.callIsWrong;
  }
  if (!fits) {
    say(`${file} stays as it was: so the class does not fit its slot`);
    return EXIT.contentHasErrors;
  }
  const next = textWithChanges(was, changes);
  if (!next.ok) {
    say(`${file} stays as it was: ${next.problem}\n${next.help}`);
    return EXIT.contentHasErrors;
  }
  const saved = await saveText(content, { file, was, text: next.value });
  if (!saved.ok) throw new OutsideFailure(`${saved.file}: ${saved.problem}`, saved.help);
  say(`${file}: ${changes.map(({ path, value }) => `${path.at(-1)} ${value ?? 'taken away'}`).join(', ')}`);
  return EXIT.fine;
}
