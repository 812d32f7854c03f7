import { resolve } from 'node:path';
import { siteConfig } from './src/node/site/index.ts';

const { LIFTSIDE_CONTENT = 'content', LIFTSIDE_BASE } = process.env;
process.env.ASTRO_TELEMETRY_DISABLED = '1';

export default siteConfig({
  content: resolve(LIFTSIDE_CONTENT),
  ...(LIFTSIDE_BASE ? { base: LIFTSIDE_BASE } : {}),
});
