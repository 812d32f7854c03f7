// Style sheets are imported for their effect; the bundler carries them to the page.
declare module '*.css';

// The address of the solver's WebAssembly file, as the bundler serves it.
declare module 'highs/runtime?url' {
  const address: string;
  export default address;
}

// The address of a style sheet, as the bundler serves it.
declare module '*.css?url' {
  const address: string;
  export default address;
}
