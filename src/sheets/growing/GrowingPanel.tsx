import { signal, useSignalEffect } from '@preact/signals'
import { useEffect } from 'preact/hooks'
import { Choice } from '../../ui/Choice.tsx'
import { later } from '../../ui/later.tsx'
import { askCrops } from '../state/crops.ts'
import { askPlantings } from '../state/plantings.ts'
import { layers, measured, shownOn } from '../state/shown.ts'
import { askWarnings } from '../state/warnings.ts'
import { StandingView } from './StandingView.tsx'

type View = 'standing' | 'next' | 'crops'
const VIEWS: readonly { readonly value: View; readonly words: string }[] = [
  { value: 'standing', words: 'Standing' },
  { value: 'next', words: 'Next year' },
  { value: 'crops', words: 'Crops' },
]
const view = signal<View>('standing')

const NextYear = later(() => import('./NextYear.tsx').then(({ NextYear }) => NextYear))
const CropsView = later(() => import('./CropsView.tsx').then(({ CropsView }) => CropsView))

/** The Growing sheet's table: what stands on the day and is still to come, the plan carried over to the next year, and the farm's crops. */
export function GrowingPanel() {
  useEffect(() => {
    void askPlantings()
    void askCrops()
  }, [])
  useSignalEffect(() => {
    if (shownOn.value !== null) void askWarnings(shownOn.value)
  })
  if (!layers.value || !measured.value) return null
  return (
    <>
      <div class="panel-views">
        <Choice
          label="Shown"
          options={VIEWS}
          value={view.value}
          onChange={(value) => {
            view.value = value
          }}
        />
      </div>
      {view.value === 'standing' && <StandingView />}
      {view.value === 'next' && <NextYear />}
      {view.value === 'crops' && <CropsView />}
    </>
  )
}
