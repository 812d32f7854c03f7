/** @jsxImportSource preact */
import { useSignal } from '@preact/signals';
import { renderSVG } from 'uqr';
import type { DayStore } from './day-store.ts';
import type { DeviceInvitation, Devices } from './devices.ts';

/** Lets a helper's phone or a screen on another machine in, by a code that is good for one of them, once. */
export function DevicesPanel({ store, devices }: { store: DayStore; devices: Devices }) {
  const shown = useSignal<(DeviceInvitation & { readonly what: string; readonly before: number }) | undefined>(
    undefined,
  );
  const problem = useSignal('');
  const open = store.devices.value;
  const attempt = async (work: () => Promise<void>) => {
    problem.value = '';
    try {
      await work();
    } catch (error) {
      problem.value = error instanceof Error ? error.message : String(error);
    }
  };
  const invite = (as: 'lead' | 'room', what: string) =>
    void attempt(async () => {
      const invitation = await devices.invite(as);
      shown.value = { ...invitation, what, before: invitation.open?.phones ?? 0 };
    });
  // A code that was used is shown no more.
  const code = shown.value && (open?.phones ?? 0) <= shown.value.before ? shown.value : undefined;
  return (
    <details class="devices">
      <summary>
        Phone and second screen{' '}
        {open && (
          <span class="quiet">
            {open.phones} connected, open at {open.hosts.join(' and ')}
          </span>
        )}
      </summary>
      <p class="buttons">
        <button type="button" onClick={() => invite('lead', 'a phone')}>
          Connect a phone
        </button>
        <button type="button" onClick={() => invite('room', 'a screen')}>
          Connect a screen
        </button>
        {open && (
          <button type="button" onClick={() => void attempt(() => devices.close())}>
            Disconnect all
          </button>
        )}
      </p>
      {problem.value !== '' && <p class="notice">{problem}</p>}
      {code && (
        <div class="invitation">
          <div
            class="code"
            role="img"
            aria-label={`QR code for ${code.what}`}
            dangerouslySetInnerHTML={{ __html: renderSVG(code.url, { border: 2 }) }}
          />
          <p>
            For {code.what} in the shop’s own network: good for one, once, for {code.minutes} minutes.
          </p>
          <p class="address">{code.url}</p>
        </div>
      )}
    </details>
  );
}
