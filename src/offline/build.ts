/** One built file, as it is kept on the device. */
export interface Part {
  /** Its address on the page's own origin, from the root: `/assets/main-x.js`. */
  readonly path: string
  /** Its SHA-256 as `integrity` wants it. */
  readonly integrity: string
  /** Its length unpacked. */
  readonly bytes: number
  /** True when its name changes with its content, so that what is kept under it never grows old. */
  readonly hashed: boolean
}

/** All that a build is made of. */
export interface Build {
  /** Names the build: changes when any file of it does. */
  readonly version: string
  /** Where the page stands, with `/` at its end. */
  readonly base: string
  readonly parts: readonly Part[]
}
