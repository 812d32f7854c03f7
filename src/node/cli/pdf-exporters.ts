import { relative } from 'node:path';
import { DAY_PAPERS } from '../../core/pages/index.ts';
import { didYouMean, firstLine } from '../../core/read/index.ts';
import { chromiumFor } from '../programs/index.ts';
import type { Printed } from '../site/index.ts';
import { EXIT, OutsideFailure } from './command.ts';
import type { ShellExporter } from './shell-exporter.ts';
import { writeOutput } from './write-output.ts';

const FROM_PLAN = [
  { path: 'run-sheet', title: 'Run sheet of a class, PDF' },
  { path: 'handout', title: 'Handout of a class, PDF' },
  { path: 'kit-list', title: 'Kit list of a class, PDF' },
  { path: 'job-breakdown', title: 'Job breakdown sheets of a class, PDF' },
] as const;
const FOR_THE_DAY = DAY_PAPERS.map(({ path, name, purpose }) => ({
  path,
  title: `${name} of a class, ${purpose}; PDF`,
}));

/** The papers of a class as PDF, printed by Chromium from the site's pages. */
export const PDF_EXPORTERS: readonly ShellExporter[] = [...FROM_PLAN, ...FOR_THE_DAY].map(({ path: paper, title }) => ({
  id: `pdf-${paper}`,
  title,
  extension: `${paper}.pdf`,
  of: 'class',

  async run(id, file, { content, home, cwd, env, now, load, signal, say }, flags) {
    const { shop } = await load();
    if (!shop.classes.some((one) => one.id === id)) {
      if (shop.broken.has(id)) {
        say(`the class "${id}" cannot be read; liftside check says why`);
        return EXIT.contentHasErrors;
      }
      const ids = shop.classes.map((one) => one.id);
      say(`no class "${id}": ${didYouMean(id, ids)}`);
      return EXIT.callIsWrong;
    }
    const browser = await chromiumFor('papers are printed', env);
    // Asked for only here: the site builder takes longer to start than most commands to finish.
    const { printPaper, ContentErrors } = await import('../site/index.ts');
    let printed: Printed;
    try {
      const wanted = flags.text('paper');
      const size = wanted === 'a4' ? 'A4' : wanted === 'letter' ? 'letter' : undefined;
      printed = await printPaper({
        content,
        home,
        now,
        load,
        classId: id,
        paper,
        browser,
        signal,
        ...(size && { size }),
      });
    } catch (error) {
      if (error instanceof ContentErrors) {
        say(error.message);
        return EXIT.contentHasErrors;
      }
      if (error instanceof OutsideFailure || signal.aborted) throw error;
      throw new OutsideFailure(
        `${relative(cwd, file)} could not be printed: ${error instanceof Error ? firstLine(error.message) : error}`,
        'the site of this content has to build: liftside build says more',
      );
    }
    await writeOutput(file, printed.pdf);
    const draft = printed.open.length > 0 ? ', a draft: what is open stands on it' : '';
    say(`wrote ${relative(cwd, file)}${draft}`);
    return EXIT.fine;
  },
}));
