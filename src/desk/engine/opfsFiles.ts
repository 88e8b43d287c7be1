import { BaseFilesystem } from '@electric-sql/pglite/basefs'
import { OpfsAhpFS } from '@electric-sql/pglite/opfs-ahp'
import type { TarEntry } from '../../../geo/store/template/tar.ts'

/** Files that are made ready for a new database. The demo farm has some 440; more are made as they are needed. */
const FIRST_FILES = 550
/** Files held ready at any time for Postgres to take within one transaction. */
const SPARE_FILES = 100
/** Modes of folders and files, as the engine gives them by itself. */
const [FOLDER, FILE] = [0o040777, 0o100666]

type Starting = Parameters<OpfsAhpFS['init']>

/**
 * A database's files, which can be opened, and laid out from a template, before there is an engine: while it is fetched
 * and compiled. Whoever opens them and has no engine take them must let go of them.
 */
export class OpfsFiles extends OpfsAhpFS {
  constructor(path: string) {
    super(path, { initialPoolSize: FIRST_FILES, maintainedPoolSize: SPARE_FILES })
  }

  /** Opens what stands there, or makes room for a new database. */
  async openFiles(): Promise<void> {
    // The engine is only noted here, and noted anew when it takes the files.
    await super.init(undefined as never, {})
  }

  override init(...starting: Starting) {
    return BaseFilesystem.prototype.init.apply(this, starting)
  }

  /** Puts in place what a new database starts from. The list of files is written when all are there. */
  async layOut(entries: Iterable<TarEntry>): Promise<void> {
    for (const { name, bytes } of entries) {
      if (name.endsWith('/')) this._mkdirState(`/${name.slice(0, -1)}`, { mode: FOLDER })
      else {
        if (this.state.pool.length === 0) await this.maintainPool()
        this.#put(`/${name}`, bytes)
      }
    }
    await this.checkpointState()
  }

  #put(path: string, bytes: Uint8Array): void {
    const backingFilename = this.state.pool.at(-1)!
    this._createFileNodeState(path, { type: 'file', lastModified: Date.now(), mode: FILE, backingFilename })
    if (bytes.length === 0) return
    const open = this.open(path)
    // It wants the buffer itself, whatever its types say.
    this.write(open, bytes.buffer as unknown as Uint8Array, bytes.byteOffset, bytes.length, 0)
    this.close(open)
  }

  /** Lets go of the files where no engine has taken them. */
  async letGo(): Promise<void> {
    // Its last act is to end the engine that has them, and there is none.
    await this.closeFs().catch(() => undefined)
  }
}
