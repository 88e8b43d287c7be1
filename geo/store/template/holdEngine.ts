import { DatabaseError } from '../database.ts'

/** State of a statement that found the engine stopped: it must be opened again. */
export const STOPPED = 'SE002'

/** What is used of the open engine and its module. */
export interface HeldEngine {
  readonly Module: { readonly ___stack_pointer: { value: number }; _PostgresMainLoopOnce: () => void }
  execProtocolRawSync(message: Uint8Array): Uint8Array
}

/**
 * Puts the engine's stack back after every message. Each SQL error leaves some hundred bytes on it, so that after a
 * thousand or two every statement would fail with "stack depth limit exceeded". Where the engine itself broke down
 * (its memory, or the page's own stack), nothing more is asked of it, since what it holds can't be trusted.
 */
export function holdEngine(engine: HeldEngine): void {
  const { Module } = engine
  const atRest = Module.___stack_pointer.value
  const send = engine.execProtocolRawSync.bind(engine)
  const step = Module._PostgresMainLoopOnce
  let broken: string | undefined
  Module._PostgresMainLoopOnce = () => {
    try {
      step()
    } catch (error) {
      if (error instanceof Error) broken ??= error.message
      throw error
    }
  }
  const check = () => {
    if (broken === undefined) return
    throw new DatabaseError('the engine has stopped and must be opened again', { sqlState: STOPPED, detail: broken })
  }
  engine.execProtocolRawSync = (message) => {
    check()
    try {
      return send(message)
    } finally {
      Module.___stack_pointer.value = atRest
      check()
    }
  }
}
