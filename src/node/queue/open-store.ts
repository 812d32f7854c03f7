import { resolve } from 'node:path';
import { OutsideFailure } from '../failure.ts';
import { FolderStore } from './folder-store.ts';
import type { MediaStore } from './media-store.ts';
import { S3Store } from './s3-store.ts';
import type { QueueSettings } from './settings.ts';

type Env = Readonly<Record<string, string | undefined>>;

/**
 * Opens the store that the settings name: a folder, or a bucket as `s3://bucket/prefix`. Its server and keys are told by
 * the variables that tools for S3 share.
 *
 * @throws OutsideFailure when it cannot be used
 */
export async function openMediaStore({ store }: QueueSettings, cwd: string, env: Env): Promise<MediaStore> {
  if (!store.startsWith('s3:')) return FolderStore.open(resolve(cwd, store));
  const [, bucket, prefix = ''] = /^s3:\/\/([a-z0-9][a-z0-9.-]{1,61}[a-z0-9])(?:\/([\w./-]*?))?\/*$/.exec(store) ?? [];
  if (bucket === undefined || prefix.split('/').some((part) => /^\.*$/.test(part) && prefix !== ''))
    throw new OutsideFailure(
      `LIFTSIDE_STORE is no name of a bucket: ${store}`,
      'write s3://bucket or s3://bucket/prefix',
      true,
    );
  const { AWS_ENDPOINT_URL_S3: own = '', AWS_ENDPOINT_URL: any = '', AWS_REGION: region = 'us-east-1' } = env;
  const endpoint = own || any;
  if (!/^https?:$/.test(URL.parse(endpoint)?.protocol ?? ''))
    throw new OutsideFailure(
      'AWS_ENDPOINT_URL_S3 does not say where the server of the store is',
      'set it to the address that its keeper names, such as https://s3.example.org',
      true,
    );
  const { AWS_ACCESS_KEY_ID: id = '', AWS_SECRET_ACCESS_KEY: secret = '', AWS_SESSION_TOKEN: session = '' } = env;
  if (id === '' || secret === '')
    throw new OutsideFailure(
      'AWS_ACCESS_KEY_ID or AWS_SECRET_ACCESS_KEY is not set',
      'set both to the keys that may read and write the bucket',
      true,
    );
  return S3Store.open({ endpoint, region, bucket, keys: { id, secret, ...(session !== '' && { session }) } }, prefix);
}
