/** @jsxImportSource preact */
import { useEffect } from 'preact/hooks';
import { type OpenToPhones as Open, Refused } from '../api.ts';
import type { Store } from '../store.ts';

/** Says, for as long as it is so, that phones can get in, where, and how many have; ends it. */
export function OpenToPhones({ store }: { readonly store: Store }) {
  const heard = store.phonesHeard.value;
  useEffect(() => {
    void store.api
      .get<{ open: Open | null }>('phones/')
      .then(({ open }) => {
        store.phones.value = open ?? undefined;
      })
      // The page says already when nobody answers.
      .catch(() => undefined);
  }, [heard]);
  const open = store.phones.value;
  if (!open) return null;
  const until = new Date(open.until).toLocaleTimeString([], { hour: '2-digit', minute: '2-digit' });
  const close = async () => {
    try {
      await store.api.post('phone/close/', {});
      store.phones.value = undefined;
      store.say('closed to phones; what they still hold can be handed over');
    } catch (error) {
      store.say(error instanceof Refused ? `${error.message}; ${error.help}` : 'Liftside does not answer');
    }
  };
  return (
    <div class="open-to-phones">
      <p role="status">
        <strong>Open to phones</strong> at {open.hosts.join(' and ')}, until {until};{' '}
        {open.phones === 1 ? '1 phone is' : `${open.phones} phones are`} let in.
      </p>
      <button type="button" onClick={close}>
        Close to phones
      </button>
    </div>
  );
}
