import type { DeskFault } from './door.ts'

/** An expected fault on its way to the page. */
export class Refusal extends Error {
  override readonly name = 'Refusal'
  readonly fault: DeskFault

  constructor(kind: DeskFault['kind'], detail: string, more: Partial<Omit<DeskFault, 'kind' | 'detail'>> = {}) {
    super(detail)
    this.fault = { kind, field: null, record: null, detail, ...more }
  }
}
