// Style sheets are imported for their effect; the bundler carries them to the page.
declare module '*.css';
