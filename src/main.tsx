import './styles/page.css'
import { startPage } from './sheets/startPage.tsx'

const page = document.getElementById('page')
if (!page) throw new Error('the page has no element to stand in')

// The map and the desk come beside each other; neither waits for the other.
void import('./map/makeMap.ts')
const { openDesk } = await import('./desk/client.ts')
startPage(page, await openDesk())
