declare module 'virtual:selion-demo' {
  /** Where the demo farm's archive (a zip) is served. */
  export const demoUrl: string
}
