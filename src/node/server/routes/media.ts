import send from 'send';
import { isFootage } from '../../../core/media/index.ts';
import { insideFolder } from '../../files/index.ts';
import { refusal, route } from '../route.ts';

const PICTURES = /\.(jpe?g|png|webp|avif)$/i;

/** Camera files and captions, whole or by range (RFC 9110, section 14). */
export default route({
  method: 'GET',
  path: 'api/media/',
  below: true,
  async handle({ rest, request, response }, room) {
    const inside = insideFolder(room.content, rest);
    if (!inside.ok) return refusal(403, inside.problem, 'only files of the content folder itself are given out');
    if (!isFootage(rest) && !PICTURES.test(rest))
      return refusal(403, `${rest} is no picture, sound or caption`, 'only those are given out');
    await new Promise<void>((done) => {
      response.on('close', done);
      send(request, encodeURI(`/${rest}`).replaceAll('?', '%3F').replaceAll('#', '%23'), {
        root: room.content,
        dotfiles: 'deny',
        index: false,
        cacheControl: false,
      })
        .on('error', (error: { status?: number }) => {
          response.statusCode = error.status ?? 404;
          response.end();
        })
        .pipe(response);
    });
    return undefined;
  },
});
