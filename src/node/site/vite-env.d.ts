// What Vite puts in the place of `import.meta.env`; only a part of it is used in this room.
interface ImportMetaEnv {
  BASE_URL: string;
}
interface ImportMeta {
  readonly env: ImportMetaEnv;
}
