export { withContentLock } from './content-lock.ts';
export { decodeText } from './decode.ts';
export { diskReason } from './disk-reason.ts';
export { fileInside, insideFolder } from './inside.ts';
export { type LoadedShop, loadShop } from './load-shop.ts';
export { placeFile } from './place-file.ts';
export { privateFolder } from './private-folder.ts';
export { saveText, saveTexts, type TextChange } from './save.ts';
export { sweep } from './sweep.ts';
