declare module 'virtual:selion-demo' {
  /** A data directory with the demo farm in it, a tar archive: where it is served, and how long it is unpacked. */
  export const demoTemplate: { readonly url: string; readonly bytes: number }
  /** Where the photos folder of its archive, a zip, is served. */
  export const demoPhotosUrl: string
  /** Where its first logical copy is served. */
  export const demoCopyUrl: string
}
