import { wholeTables } from '../../ui/Table.tsx'

/** When the browser itself prints, tables show all their rows. Returns what ends it. */
export function wholeOnPaper(): () => void {
  const before = () => {
    wholeTables.value = true
  }
  const after = () => {
    wholeTables.value = false
  }
  addEventListener('beforeprint', before)
  addEventListener('afterprint', after)
  return () => {
    removeEventListener('beforeprint', before)
    removeEventListener('afterprint', after)
  }
}
