import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { z } from 'zod';

const HOME = resolve(import.meta.dirname, '../../..');

const about = z.object({
  dependencies: z.record(z.string(), z.string()),
  optionalDependencies: z.record(z.string(), z.string()),
});
const lock = z.object({ packages: z.record(z.string(), z.object({ license: z.string().optional() })) });

const HEAD = `# Licences

Made from \`package.json\` and \`package-lock.json\` by \`npm run docs\`.

| what | licence |
| --- | --- |
| Liftside: program, docs, tests | MIT, see [LICENSE](../LICENSE) |
| the demo's texts, drawings, films, sound and captions in \`content/\` | MIT, like the program. All of them are made by a script of this project (\`tests/footage\`): nothing was filmed, nobody is in it. The voice is spoken by espeak-ng (GPL-3.0-or-later), a program that is called and not brought along |
| the mark and every icon | drawn for this project, MIT |
| fonts of the pages: Atkinson Hyperlegible Next and Mono | SIL Open Font License 1.1 |
| \`models/voice-activity\`, a network that tells speech from other sound | MIT, see [its licence](../models/voice-activity/LICENSE) |
| what a shop writes and films in a content folder of its own | the shop's own |

A built site and every package carry the licences of what they bring along in \`licences.txt\`. ffmpeg, Chromium, espeak-ng and git are programs of the machine: Liftside calls them and brings none of them along.

## Libraries

What Liftside runs with. Each of them brings libraries of its own; \`npm run dependencies\` lists all of them with what was looked at.

| library | licence |
| --- | --- |
`;

/** Who owns what, and on which terms it may be passed on. */
export function licencesPage(): string {
  const read = (name: string): unknown => JSON.parse(readFileSync(join(HOME, name), 'utf8'));
  const { dependencies, optionalDependencies } = about.parse(read('package.json'));
  const { packages } = lock.parse(read('package-lock.json'));
  const names = [...Object.keys(dependencies), ...Object.keys(optionalDependencies)].toSorted();
  const rows = names.map((name) => {
    const licence = packages[`node_modules/${name}`]?.license;
    if (licence === undefined) throw new Error(`package-lock.json tells no licence of ${name}`);
    return `| \`${name}\` | ${licence} |\n`;
  });
  return HEAD + rows.join('');
}
