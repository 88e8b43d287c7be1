import type { Laying } from '../../state/laying.ts'
import { BedLayout } from './BedLayout.tsx'
import { RowLayout } from './RowLayout.tsx'

/** What is being laid out. */
export function Layout({ laying }: { readonly laying: Laying }) {
  return laying.do === 'beds' ? <BedLayout key={laying.field} field={laying.field} /> : <RowLayout beds={laying.beds} />
}
