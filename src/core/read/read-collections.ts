import {
  type Collections,
  collectionSchema,
  collectionsSchema,
  type Diagnostic,
  type SharedCollection,
  sameFingerprint,
} from '../model/index.ts';
import { Points } from './points.ts';
import { readMachine } from './read-machine.ts';
import { originsIn, readYaml } from './read-yaml.ts';

const FILE = 'collections.yaml';
const KEPT = /^collections\/[^/]+\/([^/]+)\/collection\.yaml$/;
const MACHINE = /^specs\/([^/]+)\.yaml$/;

/** Folder of the content in which a version of a collection is kept as it was published. */
export function keptFolder(name: string, version: string): string {
  return `collections/${name}/${version}`;
}

/**
 * What a shop takes from others, and the versions in use as they are kept. What is wrong inside of those is told of the
 * content they were merged into, where it can be mended.
 */
export function readCollections(texts: ReadonlyMap<string, string>): {
  readonly collections: Collections;
  readonly diagnostics: readonly Diagnostic[];
  readonly broken: readonly string[];
} {
  const text = texts.get(FILE) ?? '';
  const { value, origin, diagnostics, broken } = readYaml(
    text,
    new Points(FILE, text),
    0,
    collectionsSchema,
    'what shops share',
  );
  const originOf = originsIn(origin, 'uses');
  const kept = (value?.uses ?? []).flatMap(({ name, key, lock }, index): SharedCollection[] => {
    if (!lock) return [];
    const folder = keptFolder(name, lock.version);
    const about = manifestOf(texts.get(`${folder}/collection.yaml`));
    if (!about) return [];
    const machines = about.files.flatMap(({ path }) => {
      const [, id] = MACHINE.exec(path) ?? [];
      const table = id === undefined ? undefined : texts.get(`${folder}/${path}`);
      if (id === undefined || table === undefined) return [];
      const { machine } = readMachine(id, table, new Points(`${folder}/${path}`, table));
      return machine ? [machine] : [];
    });
    const { title, publisher, licence } = about;
    const changes = about.files.flatMap(({ path }) => {
      const [here, there] = [texts.get(path), texts.get(`${folder}/${path}`)];
      return here === undefined || there === undefined
        ? []
        : [[path, here === there ? 'as published' : 'changed'] as const];
    });
    const signer = key !== undefined && sameFingerprint(key, lock.signer) ? 'known' : 'unknown';
    return [
      {
        ...{ name, version: lock.version, title, publisher, licence, signer, machines, texts: new Map(changes) },
        origin: originOf(index),
      },
    ];
  });
  const waiting = (value?.uses ?? []).flatMap(({ name, lock }, at) =>
    [...texts.keys()].flatMap((file) => {
      const [, version] = file.startsWith(`collections/${name}/`) ? (KEPT.exec(file) ?? []) : [];
      return version === undefined || version === lock?.version ? [] : [{ name, version, at }];
    }),
  );
  return { collections: { ...value, kept, waiting, origin }, diagnostics, broken };
}

function manifestOf(text: string | undefined) {
  if (text === undefined) return undefined;
  return readYaml(text, new Points(FILE, text), 0, collectionSchema, 'a collection').value;
}
