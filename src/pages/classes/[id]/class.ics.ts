import { writeIcs } from '../../../core/interchange/index.ts';
import { openSite } from '../../../node/site/open-site.ts';

export { classPaths as getStaticPaths } from '../../../node/site/class-of-page.ts';

/** The calendar entry of a class. */
export async function GET({ params }: { params: { id?: string } }): Promise<Response> {
  const { shop, now } = await openSite();
  const shopClass = shop.classes.find(({ id }) => id === params.id);
  if (!shopClass) return new Response('not found', { status: 404 });
  const made = writeIcs(shopClass, shop, now, import.meta.env.BASE_URL);
  if (!made.ok) throw new Error(`${made.problem}; ${made.help}`);
  return new Response(made.value.text, { headers: { 'content-type': 'text/calendar; charset=utf-8' } });
}
