import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import {
  type AttributeKind,
  actualSchema,
  classSchema,
  collectionsSchema,
  correctionsSchema,
  kitSchema,
  lessonSchema,
  questionsSchema,
  recordingSchema,
  type Shop,
  shopSchema,
  specsSchema,
  VOCABULARY,
  type VocabularyRow,
  wordsSchema,
} from '../../core/model/index.ts';
import { placeFile, privateFolder } from '../files/index.ts';

const SCHEMAS = {
  shop: shopSchema,
  recording: recordingSchema,
  lesson: lessonSchema,
  specs: specsSchema,
  kit: kitSchema,
  words: wordsSchema,
  collections: collectionsSchema,
  class: classSchema,
  corrections: correctionsSchema,
  actual: actualSchema,
  questions: questionsSchema,
};

/** The JSON Schema of each kind of content file, by name. */
export function contentSchemas(): ReadonlyMap<string, object> {
  return new Map(Object.entries(SCHEMAS).map(([name, schema]) => [name, z.toJSONSchema(schema, { io: 'input' })]));
}

/**
 * Types of every id that a lesson may cite, and of the elements it may use, so that an editor completes them.
 * `MDXProvidedComponents` is the name that MDX language servers look for.
 */
export function idTypes({ kit, machines, recordings, lessons }: Shop): string {
  const union = (ids: readonly string[]) => [...new Set(ids)].map((id) => JSON.stringify(id)).join(' | ') || 'never';
  const keys = (group: object | undefined) => union(Object.keys(group ?? {}));
  return `// Made from the content; changes are lost.
export type SpecId = ${union(machines.flatMap(({ specs }) => specs.map(({ id }) => id)))};
export type ToolId = ${keys(kit.tools)};
export type PartId = ${keys(kit.parts)};
export type SupplyId = ${keys(kit.supplies)};
export type ProtectiveId = ${keys(kit.protective)};
export type RecordingId = ${union(recordings.map(({ id }) => id))};
export type LessonId = ${union(lessons.map(({ id }) => id))};
export type MachineId = ${union(machines.map(({ id }) => id))};

declare global {
  interface MDXProvidedComponents {
${VOCABULARY.map(propsOf).join('\n')}
  }
}
`;
}

const TYPES: Readonly<Record<AttributeKind, string>> = {
  time: 'string',
  words: 'string',
  id: 'string',
  number: 'string',
  flag: 'boolean',
  'spec id': 'SpecId',
  'tool id': 'ToolId',
  'part id': 'PartId',
  'supply id': 'SupplyId',
  'protective id': 'ProtectiveId',
};

/** The props of an element, as TypeScript writes them. */
function propsOf({ name, attributes, needs, oneOf = [], words }: VocabularyRow): string {
  const prop = ([attribute, kind]: [string, AttributeKind]) =>
    `${attribute}${needs.includes(attribute) || oneOf.includes(attribute) ? '' : '?'}: ${TYPES[kind]}`;
  const [chosen, free] = [true, false].map((among) =>
    Object.entries(attributes).filter(([attribute]) => oneOf.includes(attribute) === among),
  );
  const common = [...(free ?? []).map(prop), ...(words ? ['children?: unknown'] : [])].join('; ');
  const one = (chosen ?? []).map((each) => `{ ${prop(each)} }`).join(' | ');
  return `    ${name}: (props: { ${common} }${one ? ` & (${one})` : ''}) => unknown;`;
}

/** Writes schemas and types into the private folder beside the content; a file that would not change is left alone. */
export async function writeEditorHelp(content: string, shop: Shop): Promise<void> {
  const folder = await privateFolder(content, 'editor');
  for (const [name, schema] of contentSchemas())
    await writeChanged(join(folder, `${name}.schema.json`), `${JSON.stringify(schema, null, 2)}\n`);
  await writeChanged(join(folder, 'ids.d.ts'), idTypes(shop));
}

async function writeChanged(path: string, text: string): Promise<void> {
  const old = await readFile(path, 'utf8').catch(() => undefined);
  // By rename: where a link lies, it goes, and what it leads to stays.
  if (old !== text) await placeFile(path, text);
}
