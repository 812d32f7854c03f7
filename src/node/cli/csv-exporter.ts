import { stringify } from 'csv-stringify/sync';
import { specTable } from '../../core/interchange/index.ts';
import { didYouMean } from '../../core/read/index.ts';
import { EXIT } from './command.ts';
import type { ShellExporter } from './shell-exporter.ts';
import { writeOutput } from './write-output.ts';

/** The spec table of a machine for a spreadsheet. */
export const CSV_EXPORTER: ShellExporter = {
  id: 'csv',
  title: 'spec table of a machine, for a spreadsheet',
  extension: 'csv',
  of: 'machine',

  async run(id, file, { load, say, out }, flags) {
    const { shop } = await load();
    const machine = shop.machines.find((one) => one.id === id);
    if (!machine) {
      say(
        `no machine "${id}"\n${didYouMean(
          id,
          shop.machines.map((one) => one.id),
          'name a file of specs/',
        )}`,
      );
      return EXIT.callIsWrong;
    }
    // A byte order mark: without it spreadsheets take N·m for another encoding.
    const text = stringify(specTable(machine), { bom: true });
    if (flags.text('output') === undefined) {
      out(text);
      return EXIT.fine;
    }
    await writeOutput(file, text);
    say(`wrote ${machine.specs.length} rows to ${file}`);
    return EXIT.fine;
  },
};
