// What two libraries try as they load, and the page's policy forbids: video.js to put style sheets into the page, and
// the reader of schemas to write code of its own. Both read these names, so this is imported before them.
Object.assign(globalThis, { VIDEOJS_NO_DYNAMIC_STYLE: true, __zod_globalConfig: { jitless: true } });
