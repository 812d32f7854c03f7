/** @jsxImportSource preact */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { Refused } from '../api.ts';
import type { Store } from '../store.ts';

interface Format {
  readonly id: string;
  readonly title: string;
}
interface Exported {
  readonly name: string;
  readonly text: string;
  readonly notes: readonly string[];
}

/** Captions, chapters and the edit list as a file for other programs. */
export function ExportFile({ store, recording }: { readonly store: Store; readonly recording: string }) {
  const formats = useSignal<readonly Format[]>([]);
  const chosen = useSignal('');
  useEffect(() => {
    void store.api
      .get<{ formats: Format[] }>('export/')
      .then((answer) => {
        formats.value = answer.formats;
        chosen.value ||= answer.formats[0]?.id ?? '';
      })
      // The page says already when nobody answers.
      .catch(() => undefined);
  }, []);
  const take = async () => {
    const lesson = store.desk.peek().lessonFile?.replace(/^lessons\/|\.mdx$/g, '') ?? recording;
    try {
      const path = `export/?to=${chosen.peek()}&recording=${recording}&lesson=${lesson}`;
      const { name, text, notes } = await store.api.get<Exported>(path);
      handOver(name, text);
      store.say([`${name} is in your downloads`, ...notes].join('; '));
    } catch (error) {
      store.say(error instanceof Refused ? `${error.message}; ${error.help}` : 'Liftside does not answer');
    }
  };
  if (formats.value.length === 0) return null;
  return (
    <p class="row">
      <label>
        As a file for other programs{' '}
        <select value={chosen.value} onChange={(event) => (chosen.value = event.currentTarget.value)}>
          {formats.value.map(({ id, title }) => (
            <option key={id} value={id}>
              {title}
            </option>
          ))}
        </select>
      </label>
      <button type="button" onClick={() => void take()}>
        Save the file
      </button>
    </p>
  );
}

/** Puts a text into the browser's downloads. */
function handOver(name: string, text: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text]));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}
