import { type PGlite, parse, protocol, type Results } from '@electric-sql/pglite'

/** A statement that the engine has parsed, and planned as often as it finds that worth it. */
interface Prepared {
  readonly name: string
  /** Types of its parameters, by number. */
  readonly types: readonly number[]
}

const { serialize } = protocol
/** Statements kept ready, each some tens of kilobytes in the engine; and texts remembered as asked once. */
const MOST_PREPARED = 200
const MOST_REMEMBERED = 1000
/** What can be prepared, and what changes that which was. */
const PREPARABLE = /^\s*(select|with|insert|update|delete)\b/i
const ALTERS = /^\s*(create|alter|drop)\b/i

/**
 * Statements of one engine that were asked before. Such a one is parsed and analysed once, and asked in one message
 * instead of six: of an edit on a farm of 2,000 beds two thirds of the time went there. To be used within a transaction
 * of the engine, which alone may speak to it meanwhile.
 */
export class PreparedStatements {
  readonly #engine: PGlite
  readonly #known = new Map<string, Prepared>()
  readonly #asked = new Set<string>()
  #made = 0
  #isStale = false

  constructor(engine: PGlite) {
    this.#engine = engine
  }

  /** Told of every statement, asked here or not: what is kept of tables that it alters may not fit them any more. */
  heed(text: string): void {
    if (ALTERS.test(text)) this.#isStale = true
  }

  /** Answers a statement that was asked before; null for one to be asked the usual way. Throws what Postgres says. */
  async answer<Row>(text: string, values: readonly unknown[] = []): Promise<Results<Row> | null> {
    this.heed(text)
    if (!PREPARABLE.test(text) || !this.#isKept(text)) return null
    if (this.#isStale) await this.#forget()
    return this.#engine.runExclusive(async () => {
      const known = this.#known.get(text) ?? (await this.#prepare(text))
      const messages = await this.#send(
        serialize.bind({ statement: known.name, values: known.types.map((type, i) => this.#written(values[i], type)) }),
        serialize.describe({ type: 'P' }),
        serialize.execute({}),
        serialize.sync(),
      )
      return parse.parseResults(messages, this.#engine.parsers)[0] as Results<Row>
    })
  }

  #isKept(text: string): boolean {
    if (this.#known.has(text)) return true
    if (this.#asked.has(text) && this.#known.size < MOST_PREPARED) return true
    if (this.#asked.size >= MOST_REMEMBERED) this.#asked.clear()
    this.#asked.add(text)
    return false
  }

  async #prepare(text: string): Promise<Prepared> {
    const name = `s${++this.#made}`
    const messages = await this.#send(
      serialize.parse({ name, text, types: [] }),
      serialize.describe({ type: 'S', name }),
      serialize.sync(),
    )
    const prepared = { name, types: parse.parseDescribeStatementResults(messages) }
    this.#known.set(text, prepared)
    this.#asked.delete(text)
    return prepared
  }

  async #forget(): Promise<void> {
    await this.#engine.runExclusive(() => this.#send(serialize.query('deallocate all')))
    this.#known.clear()
    this.#isStale = false
  }

  /** A value as Postgres reads it, or null. */
  #written(value: unknown, type: number): string | null {
    if (value === null || value === undefined) return null
    return this.#engine.serializers[type]?.(value) ?? String(value)
  }

  #send(...parts: readonly Uint8Array[]): ReturnType<PGlite['execProtocolStream']> {
    const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0))
    let at = 0
    for (const part of parts) {
      whole.set(part, at)
      at += part.length
    }
    return this.#engine.execProtocolStream(whole, { syncToFs: false })
  }
}
