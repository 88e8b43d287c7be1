import { Progress } from '../../ui/Progress.tsx'
import { kept } from '../state/device.ts'

/** Whether the page opens and works with no network, in words. */
export function WithoutNetwork() {
  const { value } = kept
  if (value.is === 'whole') return <p class="without-network">Works without a network.</p>
  if (value.is === 'coming') return <Progress doing="Keeping the page for use without a network" {...value} />
  return (
    <p class="without-network">
      Needs a network to open, for now.{' '}
      {value.is === 'barred' ? value.why : 'Once a farm has stood open for a little, it does not any more.'}
    </p>
  )
}
