import { later } from '../../ui/later.tsx'
import { sitingFault, sitingShown } from '../state/siting.ts'

const Shadows = later(async () => (await import('./Shadows.tsx')).Shadows)
const SunLostTable = later(async () => (await import('./SunLostTable.tsx')).SunLostTable)
const PlanView = later(async () => (await import('./PlanView.tsx')).PlanView)
const Canopies = later(async () => (await import('./Canopies.tsx')).Canopies)

/** The Siting sheet's table: the plan, the sun, the shade and the trees to come. */
export function SitingPanel() {
  return (
    <>
      {sitingFault.value && (
        <p class="fault" role="alert">
          {sitingFault.value.detail}
        </p>
      )}
      {sitingShown.value === 'plan' && <PlanView />}
      {sitingShown.value === 'shadows' && <Shadows />}
      {sitingShown.value === 'lost' && <SunLostTable />}
      {sitingShown.value === 'canopies' && <Canopies />}
    </>
  )
}
