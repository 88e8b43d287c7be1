import { openFarm } from '../state/farm.ts'

/** Marks the demo farm as invented, where its name does not say so itself. */
export function InventedMark() {
  const { entry, farm } = openFarm.value!
  if (!entry.invented || /invented/i.test(farm.name)) return null
  return <p class="invented">Invented: no such farm</p>
}
