import { Opening } from '../start/Opening.tsx'
import { Start } from '../start/Start.tsx'
import { openFarm, phase } from '../state/farm.ts'
import { Plan } from './Plan.tsx'

/** The page, by where it stands. */
export function Page() {
  if (phase.value === 'choosing') return <Start />
  if (phase.value === 'starting' || phase.value === 'opening' || !openFarm.value) return <Opening />
  return <Plan key={openFarm.value.entry.id} />
}
