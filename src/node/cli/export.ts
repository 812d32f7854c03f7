import { resolve } from 'node:path';
import { exportById, FORMATS } from '../../core/interchange/index.ts';
import { command, EXIT } from './command.ts';
import { SHELL_EXPORTERS } from './exporters.ts';
import { writeOutput } from './write-output.ts';

export default command({
  name: 'export',
  summary: 'writes captions, chapters, edit lists and papers as files that other programs read',
  args: ['<lesson|recording|class|machine>'],
  options: [
    {
      name: 'to',
      value: 'FORMAT',
      choices: [...FORMATS, ...SHELL_EXPORTERS].map(({ id }) => id),
      help: 'the format',
    },
    { name: 'paper', value: 'SIZE', choices: ['a4', 'letter'], help: 'of a PDF; the shop’s own paper when left out' },
    {
      name: 'output',
      short: 'o',
      value: 'FILE',
      help: 'where to write; when left out, standard output, and for a paper ID.PAPER.pdf where you are',
    },
  ],

  async run([id = ''], flags, context) {
    const { out, say, cwd, load, now } = context;
    const wanted = flags.text('to');
    const output = flags.text('output');
    const shell = SHELL_EXPORTERS.find((one) => one.id === wanted);
    if (shell) return shell.run(id, resolve(cwd, output ?? `${id}.${shell.extension}`), context, flags);
    const format = FORMATS.find((one) => one.id === wanted);
    if (!format) {
      say(
        `--to names a format:\n${[...FORMATS, ...SHELL_EXPORTERS].map((one) => `  ${one.id.padEnd(18)} ${one.title}`).join('\n')}`,
      );
      return EXIT.callIsWrong;
    }
    const { shop } = await load();
    if (shop.broken.has(id)) {
      say(`"${id}" cannot be read whole; liftside check says why`);
      return EXIT.contentHasErrors;
    }
    const made = exportById(format, id, shop, now());
    if (!made.known) {
      say(made.words);
      return EXIT.callIsWrong;
    }
    if (!made.result.ok) {
      say(`${made.result.problem}\n${made.result.help}`);
      return EXIT.contentHasErrors;
    }
    const { text, notes } = made.result.value;
    for (const note of notes) say(note);
    if (output === undefined) out(text);
    else {
      const file = resolve(cwd, output);
      await writeOutput(file, text);
      say(`wrote ${output}`);
    }
    return EXIT.fine;
  },
});
