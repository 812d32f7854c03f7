import { fitClass, fitJson, offersFor, partLookup, printFit, printOffers, withOffers } from '../../core/fit/index.ts';
import { didYouMean } from '../../core/read/index.ts';
import { loadSolver } from '../programs/index.ts';
import { command, EXIT } from './command.ts';

export default command({
  name: 'fit',
  summary: 'fits a class into its slot: run sheet, what to leave out, how sure it is',
  args: ['<class>'],
  options: [
    { name: 'json', help: 'one JSON document, times in seconds from the start of the class' },
    { name: 'learned', help: 'reckon with what earlier classes took instead of the written estimates' },
  ],

  async run([id = ''], flags, { load, out, say }) {
    const { shop } = await load();
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
    const offers = offersFor(shopClass, shop);
    const taken = flags.has('learned') ? withOffers(shopClass, offers) : shopClass;
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
    return fit.fits ? EXIT.fine : EXIT.contentHasErrors;
  },
});
