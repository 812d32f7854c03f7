import { relative, sep } from 'node:path';
import { pathToFileURL } from 'node:url';
import {
  count,
  EXPLAINABLE,
  explain,
  explainText,
  type Paint,
  reportJson,
  reportSarif,
  reportText,
} from '../../core/check/index.ts';
import { didYouMean } from '../../core/read/index.ts';
import { isoDay } from '../../core/time/index.ts';
import { checkFolder } from '../check/index.ts';
import { command, EXIT, folderThere } from './command.ts';

const COLOUR = { error: 31, warning: 33, info: 36, place: 1, quiet: 2 } as const;
const paint: Paint = (what, text) => `\u001b[${COLOUR[what]}m${text}\u001b[0m`;

export default command({
  name: 'check',
  summary: 'read everything, run every rule',
  args: [],
  options: [
    { name: 'json', help: 'one JSON document' },
    { name: 'sarif', help: 'SARIF 2.1.0, for code hosts and editors' },
    { name: 'explain', value: 'RULE', help: 'what a rule tells, why, and what to do, with an example wrong and right' },
  ],

  async run(_, flags, { content, cwd, now, out, say, terminal, env }) {
    if (flags.has('json') && flags.has('sarif')) {
      say('--json and --sarif are two documents; say one of them');
      return EXIT.callIsWrong;
    }
    const asked = flags.text('explain');
    if (asked !== undefined) {
      const explained = explain(asked);
      if (!explained) {
        say(`no rule "${asked}"; ${didYouMean(asked, EXPLAINABLE, 'docs/rules.md lists them all')}`);
        return EXIT.callIsWrong;
      }
      out(flags.has('json') ? JSON.stringify(explained, null, 2) : explainText(explained));
      return EXIT.fine;
    }
    await folderThere(content);
    const { diagnostics, texts, notes } = await checkFolder(content, isoDay(now()));
    for (const note of notes) say(`note: ${note}`);
    if (flags.has('json')) out(reportJson(diagnostics));
    else if (flags.has('sarif')) out(reportSarif(diagnostics, `${pathToFileURL(content).href}/`));
    else {
      const base = relative(cwd, content).split(sep).join('/');
      const shownAs = (file: string) => (base === '' ? file : `${base}/${file}`);
      out(reportText(diagnostics, texts, shownAs, terminal && env.NO_COLOR === undefined ? paint : undefined));
    }
    return count(diagnostics).error > 0 ? EXIT.contentHasErrors : EXIT.fine;
  },
});
