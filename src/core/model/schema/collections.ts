import { z } from 'zod';
import { outsideReason } from '../inside.ts';
import { contentFile, day, id, text } from './common.ts';

/** SemVer 2.0.0, with the expression that its own page proposes for it (FAQ; from memory). */
const SEMVER =
  /^(0|[1-9]\d*)\.(0|[1-9]\d*)\.(0|[1-9]\d*)(?:-((?:0|[1-9]\d*|\d*[a-zA-Z-][0-9a-zA-Z-]*)(?:\.(?:0|[1-9]\d*|\d*[a-zA-Z-][0-9a-zA-Z-]*))*))?(?:\+([0-9a-zA-Z-]+(?:\.[0-9a-zA-Z-]+)*))?$/;

const version = z
  .string('a version is a text in three parts, such as "1.2.0"')
  .max(64)
  .regex(SEMVER, 'a version reads 1.2.0 (SemVer 2.0.0)')
  .meta({ description: 'SemVer 2.0.0: 1.2.0' });

const sha256 = z
  .string()
  .regex(/^[0-9a-f]{64}$/, 'a SHA-256 sum is 64 digits and letters a to f')
  .meta({ description: 'SHA-256, hexadecimal' });

/** A key as people compare it: sixteen or fewer groups of four. */
const fingerprint = z
  .string('a fingerprint is a text in quotes')
  .regex(/^(?:[0-9a-f]{4}[ -]?){8}$/i, 'a fingerprint is eight groups of four digits and letters a to f')
  .meta({ description: 'Eight groups of four, as `liftside collections key` prints them' });

/** An SPDX licence expression, or the words `LicenseRef-…` that SPDX keeps for licences of one’s own. */
const licence = text
  .max(200)
  .regex(/^[A-Za-z0-9.+() -]+$/, 'a licence reads as SPDX lists it, such as CC-BY-4.0')
  .meta({ description: 'SPDX licence expression, such as CC-BY-4.0' });

/** Git itself is handed the address; it must not take it for an option, or for a program to run. */
const repository = text.regex(
  /^(?:https:\/\/|ssh:\/\/|file:\/\/\/|[\w.]+@[\w.-]+:)(?!-)\S+$/,
  'a repository begins with https://, ssh://, file:/// or reads name@host:path',
);

const source = {
  folder: text.optional().meta({ description: 'Where it comes from: a folder, counted from the content folder' }),
  address: z
    .url({ protocol: /^https$/, error: 'an address begins with https://' })
    .optional()
    .meta({ description: 'or an https address of a folder' }),
  git: repository.optional().meta({ description: 'or a git repository' }),
  path: text
    .superRefine((name, issues) => {
      const reason = outsideReason(name);
      if (reason !== undefined) issues.addIssue(`${name} does not lie in the repository: ${reason}`);
    })
    .optional()
    .meta({ description: 'The folder in the repository; left out, its top' }),
};

/** `content/collections.yaml`: what a shop takes from others, and what it gives. */
export const collectionsSchema = z
  .strictObject({
    uses: z
      .array(
        z
          .strictObject({
            name: id,
            ...source,
            key: fingerprint.optional().meta({
              description: 'Fingerprint of the publisher’s key, compared by phone; left out, the signer is unknown',
            }),
            keyComparedBy: text.optional().meta({ description: 'Role of who compared the key' }),
            keyComparedOn: day.optional(),
            lock: z
              .strictObject({ version, sum: sha256, signer: fingerprint })
              .optional()
              .meta({ description: 'What is in use; written by `liftside collections update`' }),
          })
          .refine(
            ({ folder, address, git }) => [folder, address, git].filter((one) => one !== undefined).length === 1,
            'it comes from one place: write folder, address or git',
          ),
      )
      .optional()
      .meta({ description: 'Collections of other shops' }),
    publishes: z
      .array(
        z.strictObject({
          name: id,
          title: text,
          licence,
          files: z
            .array(contentFile)
            .min(1, 'a collection has at least one file')
            .meta({ description: 'Spec tables, kit.yaml, words.yaml, lessons; what lessons need goes along' }),
        }),
      )
      .optional()
      .meta({ description: 'Collections this shop gives to others' }),
  })
  .meta({ id: 'collections', description: 'What shops share' });

/** `collection.yaml`: what a collection is, each file with its sum, and the signature over all of it. */
export const collectionSchema = z
  .strictObject({
    format: z.literal('liftside-collection'),
    name: id,
    version,
    title: text.max(200),
    publisher: text.max(200).meta({ description: 'The shop it comes from' }),
    licence,
    invented: z.literal(true).optional().meta({ description: 'Its values are invented, and nobody may work by them' }),
    notes: text.max(4000).optional().meta({ description: 'What changed' }),
    key: z
      .string()
      .regex(/^[A-Za-z0-9_-]{43}$/, 'a key has 43 signs')
      .meta({ description: 'Public key, Ed25519, as RFC 8037 writes it (x)' }),
    files: z
      .array(
        z.strictObject({
          path: z.string().min(1).max(500),
          bytes: z.number().int().nonnegative(),
          sha256,
        }),
      )
      .min(1, 'a collection has at least one file'),
    signature: z
      .string()
      .regex(/^[A-Za-z0-9_-]{86}$/, 'a signature has 86 signs')
      .meta({ description: 'Ed25519 (RFC 8032) over all the rest as RFC 8785 writes it, base64url' }),
  })
  .meta({ id: 'collection', description: 'A collection' });
export type CollectionManifest = z.infer<typeof collectionSchema>;
