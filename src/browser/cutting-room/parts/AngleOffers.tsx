/** @jsxImportSource preact */
import { useSignal, useSignalEffect } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { placeAngle } from '../../../core/edit/index.ts';
import { fromSeconds, printSignedTime, TICKS_PER_SECOND, type Ticks, ticks } from '../../../core/time/index.ts';
import type { AngleOffer, Footage } from '../footage.ts';
import type { Store } from '../store.ts';

/** So much is heard at a time, s. */
const HEARD = 10;

/** Where further cameras and recorders may lie that their sound alone could not place: to hear, and to write. */
export function AngleOffers({ store, footage }: { readonly store: Store; readonly footage: Footage }) {
  const angles = store.view.value.recording?.angles ?? [];
  const open = footage.offers.value.filter(({ index, file }) => {
    const angle = angles[index];
    return angle?.file === file && angle.offset === undefined;
  });
  if (open.length === 0) return null;
  return (
    <ul class="offers" aria-label="Cameras and recorders that are not placed yet">
      {open.map((offer) => (
        <Offer key={offer.file} store={store} footage={footage} offer={offer} id={angles[offer.index]?.id ?? ''} />
      ))}
    </ul>
  );
}

function Offer({
  store,
  footage,
  offer: { index, file, at },
  id,
}: {
  readonly store: Store;
  readonly footage: Footage;
  readonly offer: AngleOffer;
  readonly id: string;
}) {
  const other = useSignal<HTMLAudioElement | undefined>(undefined);
  const shown = other.value ? 'Stop' : 'Hear both';
  // Both stop together: at the end of what is heard, and when anybody stops the film.
  useSignalEffect(() => {
    if (store.session.value.transport.speed > 0) return;
    other.peek()?.pause();
    other.value = undefined;
  });
  useEffect(() => () => other.peek()?.pause(), []);
  const hear = async () => {
    if (other.peek()) return store.patch({ transport: { speed: 0, programme: false } });
    const sound = new Audio(store.api.media(file));
    const from = whereToHear(footage, at);
    sound.currentTime = (from - at) / TICKS_PER_SECOND;
    store.seek(from);
    try {
      await sound.play();
    } catch {
      return store.say(`the sound of ${file} does not play here`);
    }
    store.patch({ transport: { speed: 1, programme: false, until: ticks(from + fromSeconds(HEARD)) } });
    other.value = sound;
  };
  return (
    <li>
      <p>
        <b>{id}</b> may begin at {printSignedTime(at)}. Its sound alone does not tell: where it is right, both sound as
        one, without an echo.
      </p>
      <p class="row">
        <button type="button" aria-label={`${shown}: ${id}`} onClick={() => void hear()}>
          {shown}
        </button>
        <button type="button" aria-label={`It begins there: ${id}`} onClick={() => store.run(placeAngle(index, at))}>
          It begins there
        </button>
      </p>
    </li>
  );
}

/** Where somebody first speaks while both run. */
function whereToHear({ speech }: Footage, at: Ticks<'recording'>): Ticks<'recording'> {
  const first = Math.max(0, at);
  return ticks(Math.max(first, speech.peek().find(({ end }) => end > first)?.start ?? first));
}
