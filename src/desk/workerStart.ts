/** What the desk's worker is told when it is made, by its name: it begins before it is spoken to. */
export interface WorkerStart {
  /** What the page's address asks for: `idb` keeps all in IndexedDB, `idb-engine` only the databases. */
  readonly storage: string
  /** True where what is fetched comes slowly, so that its bytes are worth counting. */
  readonly isSlow: boolean
}
