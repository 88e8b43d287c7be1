import type { Answer, Ask, Desk, Reply, RequestName } from '../../desk/door.ts'

let opened: Desk | null = null

/** Gives the sheets the desk that they ask; called once, where the page is composed. */
export function useDesk(desk: Desk): void {
  opened = desk
}

/** Asks the desk; settles always, with the value or with a fault that can be shown. */
export function ask<N extends RequestName>(
  name: N,
  args: Ask<N>,
  options?: { signal?: AbortSignal },
): Promise<Reply<Answer<N>>> {
  if (!opened) throw new Error(`${name} was asked before there was a desk`)
  return opened.ask(name, args, options)
}

export type Measured = Answer<'measure'>
export type MeasuredField = Measured['fields'][number]
export type MeasuredBed = Measured['beds'][number]
export type Layers = Answer<'seeLayers'>
export type Yielded = Answer<'yield'>
export type YieldedBed = Yielded['beds'][number]
export type YieldedZone = Yielded['zones'][number]
