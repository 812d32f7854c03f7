/** @jsxImportSource preact */
import { useComputed, useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { renderSVG } from 'uqr';
import {
  type Alignment,
  alignByCamera,
  alignByClap,
  useShootLog as fromShootLog,
  momentOf,
  type Tap,
  takesOf,
  timecodeAt,
} from '../../../core/edit/index.ts';
import { type OpenToPhones, Refused } from '../api.ts';
import type { Store } from '../store.ts';
import { TakeInTaps } from './TakeInTaps.tsx';

interface Log {
  readonly taps: readonly Tap[];
}

interface Invitation {
  readonly url: string;
  readonly addresses: readonly string[];
  readonly open?: OpenToPhones;
}

/** What the phone logged on shoot day: takes, how they lie on the recording, and first cues made of them. */
export function ShootLog({ store }: { readonly store: Store }) {
  const log = useSignal<Log>({ taps: [] });
  const invitation = useSignal<Invitation | undefined>(undefined);
  const byClap = useSignal<Alignment | undefined>(undefined);
  const lesson = store.desk.value.lessonFile?.replace(/^lessons\/|\.mdx$/g, '') ?? '';
  const labels = store.view.value.labels;
  const alignment = useComputed(() => byClap.value ?? alignByCamera(log.value.taps, store.view.value.labels));

  const sayRefusal = async (work: () => Promise<void>) => {
    try {
      await work();
    } catch (error) {
      store.say(error instanceof Refused ? `${error.message}; ${error.help}` : 'Liftside does not answer');
    }
  };
  useEffect(() => {
    void sayRefusal(async () => {
      log.value = await store.api.get<Log>(`shoot-log/?lesson=${lesson}`);
    });
  }, [lesson, store.logged.value]);

  const open = (address?: string) =>
    sayRefusal(async () => {
      const asked = { lesson, ...(address === undefined ? {} : { address }) };
      invitation.value = await store.api.post<Invitation>('phone/open/', asked);
      store.phones.value = invitation.value.open;
      // What was said when it was closed is true no more.
      store.say('');
    });
  const letIn = store.phones.value?.phones;
  useEffect(() => {
    // A code that was used, or that nobody can use any more, is not shown on.
    if (letIn === undefined || letIn > (invitation.peek()?.open?.phones ?? 0)) invitation.value = undefined;
  }, [letIn]);
  const takes = takesOf(log.value.taps);
  const titles = new Map(store.view.value.passages.map(({ id, title }) => [id, title]));
  const clap = () => {
    byClap.value = alignByClap(log.value.taps, store.playhead.peek());
    store.say(
      byClap.value === undefined ? 'no clap was tapped on the phone' : 'phone and recording are aligned by the clap',
    );
  };
  const use = () => {
    const at = alignment.peek();
    if (at === undefined) store.say('align phone and recording first, by a clap or by the time the camera showed');
    else store.run((session) => fromShootLog(session, log.peek().taps, at));
  };
  return (
    <section class="shoot-log" aria-labelledby="shoot-title">
      <h2 id="shoot-title">
        Shoot log <small>{takes.length === 0 ? 'for shoot day, on a phone' : `${takes.length} takes`}</small>
      </h2>
      {invitation.value && (
        <div class="invitation">
          <div
            class="code"
            role="img"
            aria-label="QR code for the phone"
            dangerouslySetInnerHTML={{ __html: renderSVG(invitation.value.url, { border: 2 }) }}
          />
          <p>
            Scan it with a phone in the shop’s own network. It is good for one phone, for ten minutes.
            <span class="where">{invitation.value.url}</span>
          </p>
          {invitation.value.addresses.length > 1 && (
            <p>
              <label for="address">The phone does not get there? Another address of this machine: </label>
              <select id="address" onChange={(event) => void open(event.currentTarget.value)}>
                {invitation.value.addresses.map((address) => (
                  <option
                    key={address}
                    value={address}
                    selected={new URL(invitation.value?.url ?? '').host.includes(address)}
                  >
                    {address}
                  </option>
                ))}
              </select>
            </p>
          )}
        </div>
      )}
      <p class="row">
        <button type="button" onClick={() => void open()}>
          {invitation.value ? 'Another phone' : 'Connect a phone'}
        </button>
        {takes.length > 0 && (
          <>
            <button type="button" onClick={clap}>
              The clap is here
            </button>
            <button type="button" onClick={use}>
              Make first cues and cuts
            </button>
          </>
        )}
      </p>
      <ol>
        {takes.map((take) => (
          <li key={`${take.step} ${take.take} ${take.from}`}>
            <span class="at">
              {alignment.value === undefined ? '' : timecodeAt(momentOf(take.from, alignment.value), labels)}
            </span>{' '}
            {titles.get(take.step) ?? take.step}, take {take.take}
            {take.verdict ? `, ${take.verdict}` : ''}
          </li>
        ))}
      </ol>
      <TakeInTaps store={store} />
    </section>
  );
}
