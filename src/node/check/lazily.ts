/**
 * A thing of which a part is known, and the rest is read when it is asked for.
 *
 * @param known values that are as in the whole
 */
export function lazily<T extends object>(known: Partial<T>, whole: () => T): T {
  const handler: ProxyHandler<Partial<T>> = {
    get: (_, key) => Reflect.get(key in known ? known : whole(), key),
    has: (_, key) => key in known || key in whole(),
    ownKeys: () => Reflect.ownKeys(whole()),
    getOwnPropertyDescriptor: (_, key) => {
      const own = Reflect.getOwnPropertyDescriptor(whole(), key);
      return own && { ...own, configurable: true };
    },
  };
  return new Proxy<Partial<T>>({}, handler) as T;
}
