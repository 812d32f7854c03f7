import { resolve } from 'node:path';
import { FolderStore } from './folder-store.ts';
import type { MediaStore } from './media-store.ts';
import type { QueueSettings } from './settings.ts';

/**
 * Opens the store that the settings name.
 *
 * @throws OutsideFailure when it cannot be used
 */
export async function openMediaStore({ store }: QueueSettings, cwd: string): Promise<MediaStore> {
  return FolderStore.open(resolve(cwd, store));
}
