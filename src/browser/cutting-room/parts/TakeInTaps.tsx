/** @jsxImportSource preact */
import { useSignal } from '@preact/signals';
import { takenInWords, tapsInFiles } from '../../shoot-log/take-in.ts';
import { Refused } from '../api.ts';
import type { Store } from '../store.ts';

/** The most that is sent at once. */
const BATCH = 200;

/** Takes in taps that a phone could not send: a file, or pictures of the codes it shows. */
export function TakeInTaps({ store }: { readonly store: Store }) {
  const words = useSignal('');
  const read = async (files: readonly File[]) => {
    words.value = 'Reading.';
    try {
      const found = await tapsInFiles(files, async () => (await import('../../shoot-log/pictures.ts')).codeInPicture);
      for (let at = 0; at < found.taps.length; at += BATCH)
        await store.api.post('shoot-log/', { taps: found.taps.slice(at, at + BATCH) });
      const lessons = [...new Set(found.taps.map(({ lesson }) => lesson))];
      words.value = `${takenInWords(found)}${lessons.length > 0 ? ` In the log of: ${lessons.join(', ')}.` : ''}`;
    } catch (error) {
      words.value = error instanceof Refused ? `${error.message}; ${error.help}` : 'Liftside does not answer';
    }
  };
  return (
    <details class="take-in">
      <summary>Take in taps from a phone that cannot send them</summary>
      <label for="taken">Pictures of the codes it shows under “Hand taps over”, or the file it saves there.</label>
      <input
        id="taken"
        type="file"
        multiple
        accept="image/*,.json"
        onChange={(event) => void read([...(event.currentTarget.files ?? [])])}
      />
      <p role="status">{words}</p>
    </details>
  );
}
