import type { APIRoute } from 'astro';
import { href } from '../components/href.ts';
import { openSite } from '../node/site/open-site.ts';

/** What the site is called and opens with where it stands among a device's programs (W3C, Web Application Manifest). */
export const GET: APIRoute = async () => {
  const { shop } = await openSite();
  const { name, language = 'en' } = shop.info;
  const manifest = {
    ...{ id: href(''), name, short_name: name.length > 12 ? (name.split(' ')[0] ?? name) : name, lang: language },
    ...{ start_url: href(''), scope: href(''), display: 'minimal-ui' },
    ...{ background_color: '#f3f0e8', theme_color: '#1b3a8a' },
    icons: [{ src: href('mark.svg'), type: 'image/svg+xml', sizes: 'any' }],
  };
  return new Response(JSON.stringify(manifest, null, 2), { headers: { 'content-type': 'application/manifest+json' } });
};
