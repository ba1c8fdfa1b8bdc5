/** What vite.config.ts makes. */
declare module 'virtual:workshop' {
  /** Address of the worker's script. */
  const address: string;
  export default address;
}

declare module 'virtual:first-example' {
  /** Address of the first example as it was read when the page was built; null while developing. */
  const address: string | null;
  export default address;
}

declare module 'virtual:guide' {
  /** Pages of docs/guide as HTML, the list of them first. */
  const pages: readonly { name: string; title: string; html: string }[];
  export default pages;
}
