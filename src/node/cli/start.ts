import { basePath, portNumber } from './build.ts';
import { command, EXIT } from './command.ts';

export default command({
  name: 'start',
  summary: 'the local site, made afresh with each change of the content',
  args: [],
  options: [
    { name: 'port', value: 'N', help: 'a free one when left out' },
    { name: 'base', value: 'PATH', help: 'the path to serve it under' },
  ],

  async run(_, flags, { content, home, env, load, signal, out }) {
    await load();
    const { devSite } = await import('../site/index.ts');
    const base = basePath(flags.text('base') ?? env.LIFTSIDE_BASE ?? '/');
    const served = await devSite({ content, base, home, port: portNumber(flags.text('port')) });
    out(served.address);
    await new Promise((stop) => signal.addEventListener('abort', stop, { once: true }));
    await served.close();
    return EXIT.fine;
  },
});
