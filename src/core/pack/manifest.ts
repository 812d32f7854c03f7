import { z } from 'zod';
import { idSchema } from '../model/index.ts';
import { fail, ok, type Parsed } from '../time/index.ts';

/** Names of files that every package has at its top. */
export const MANIFEST_FILE = 'package.json';
export const SUMS_FILE = 'files.txt';
export const READ_ME_FILE = 'READ ME FIRST.html';
/** Folders of a package: the pages, the films, the printed papers, the content they were made from, others' licences. */
export const PACKAGE_FOLDERS = {
  pages: 'pages',
  film: 'film',
  papers: 'papers',
  source: 'source',
  licences: 'licences',
} as const;

/** The version of the format that is written. Every version up to it is read. */
export const PACKAGE_VERSION = 1;

const text = z.string().min(1);

/** What plays of a recording in a package, and where it lies. */
const film = z.strictObject({
  recording: idSchema,
  plays: z.enum(['programme', 'camera files', 'nothing']).meta({
    description: 'The finished programme, the camera files whole by the edit list, or no film at all',
  }),
  files: z.array(text).meta({ description: 'Paths in the package, in the order in which they play' }),
});

/** `package.json`: what a package is. The files themselves and their sums stand in `files.txt`. */
export const packageSchema = z
  .strictObject({
    format: z.literal('liftside-package'),
    version: z.literal(PACKAGE_VERSION),
    kind: z.enum(['lesson', 'class']),
    id: idSchema,
    title: text,
    shop: text.meta({ description: 'Name of the shop it comes from' }),
    language: text.meta({ description: 'BCP 47 tag' }),
    invented: z.boolean().meta({ description: 'True where values are invented, and nobody may work from them' }),
    opens: text.meta({ description: 'Path of the page to begin with' }),
    lessons: z.array(idSchema),
    films: z.array(film),
  })
  .meta({ id: 'package', description: 'A lesson or class that travels without a network' });
export type PackageManifest = z.infer<typeof packageSchema>;

const anyVersion = z.looseObject({ format: z.literal('liftside-package'), version: z.number().int().positive() });

/**
 * What a package says of itself.
 *
 * @returns refused, with words, where it is no package or one of a version that is not known yet
 */
export function readManifest(text: string): Parsed<PackageManifest> {
  let written: unknown;
  try {
    written = JSON.parse(text);
  } catch {
    return fail(`${MANIFEST_FILE} is no JSON`, 'it was changed or cut off: take the package afresh from where it came');
  }
  const known = anyVersion.safeParse(written);
  if (!known.success) return fail(`${MANIFEST_FILE} is not that of a lesson package`, 'name a package made by pack');
  if (known.data.version > PACKAGE_VERSION)
    return fail(
      `the package has version ${known.data.version} of the format, and this Liftside reads up to ${PACKAGE_VERSION}`,
      'take a newer Liftside; the pages of the package open all the same, by READ ME FIRST.html',
    );
  const read = packageSchema.safeParse(written);
  if (read.success) return ok(read.data);
  const [issue] = read.error.issues;
  return fail(
    `${MANIFEST_FILE} is not as the format has it: ${issue?.path.join('.') || 'the whole'}: ${issue?.message}`,
    'it was changed: take the package afresh from where it came',
  );
}

/** The manifest as it is written. */
export function manifestText(manifest: PackageManifest): string {
  return `${JSON.stringify(packageSchema.parse(manifest), null, 2)}\n`;
}
