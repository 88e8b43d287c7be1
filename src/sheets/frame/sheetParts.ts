import type { ComponentType } from 'preact'
import { GroundLegend } from '../ground/GroundLegend.tsx'
import { GroundPanel } from '../ground/GroundPanel.tsx'
import { GroundStrip } from '../ground/GroundStrip.tsx'
import { GrowingLegend } from '../growing/GrowingLegend.tsx'
import { GrowingPanel } from '../growing/GrowingPanel.tsx'
import { GrowingStrip } from '../growing/GrowingStrip.tsx'
import type { SheetName } from '../names.ts'
import { PickingPanel } from '../picking/PickingPanel.tsx'
import { SitingLegend } from '../siting/SitingLegend.tsx'
import { SitingPanel } from '../siting/SitingPanel.tsx'
import { SitingStrip } from '../siting/SitingStrip.tsx'
import { StockLegend } from '../stock/StockLegend.tsx'
import { StockPanel } from '../stock/StockPanel.tsx'
import { SupportsLegend } from '../supports/SupportsLegend.tsx'
import { SupportsPanel } from '../supports/SupportsPanel.tsx'
import { SupportsStrip } from '../supports/SupportsStrip.tsx'
import { YieldLegend } from '../yield/YieldLegend.tsx'
import { YieldPanel } from '../yield/YieldPanel.tsx'
import { YieldStrip } from '../yield/YieldStrip.tsx'

/** What each sheet puts beside the map. */
export const PANELS: Readonly<Record<SheetName, ComponentType>> = {
  ground: GroundPanel,
  growing: GrowingPanel,
  supports: SupportsPanel,
  picking: PickingPanel,
  yield: YieldPanel,
  siting: SitingPanel,
  stock: StockPanel,
}

/** What each sheet puts in the map's upper left corner. */
export const LEGENDS: Readonly<Partial<Record<SheetName, ComponentType>>> = {
  ground: GroundLegend,
  growing: GrowingLegend,
  supports: SupportsLegend,
  picking: GrowingLegend,
  yield: YieldLegend,
  siting: SitingLegend,
  stock: StockLegend,
}

/** What each sheet puts in the map's lower left corner: its tools and switches. */
export const STRIPS: Readonly<Partial<Record<SheetName, ComponentType>>> = {
  ground: GroundStrip,
  growing: GrowingStrip,
  supports: SupportsStrip,
  yield: YieldStrip,
  siting: SitingStrip,
}
