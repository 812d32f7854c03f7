export { lessonDocuments } from './lesson-documents.ts';
export {
  BOOK_DOCUMENT,
  BOOK_FOLDER,
  BOOK_STYLES,
  type BookAbout,
  CONTAINER,
  isBookPicture,
  navigation,
  packageDocument,
  titlePage,
} from './package-document.ts';
