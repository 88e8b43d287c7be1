import './styles/page.css'
import { openDesk } from './desk/client.ts'
import { startPage } from './sheets/startPage.tsx'

const page = document.getElementById('page')
if (!page) throw new Error('the page has no element to stand in')

startPage(page, openDesk())
// The map's program comes while the desk's worker starts, once the page has been painted.
requestAnimationFrame(() => setTimeout(() => import('./map/makeMap.ts')))
