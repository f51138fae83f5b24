import type { Theme } from 'vitepress'
import ScrollBox from './components/ScrollBox.vue'
import Layout from './Layout.vue'
import Missing from './Missing.vue'
import './styles/base.css'
import './styles/layout.css'
import './styles/prose.css'
import './styles/math.css'
import './styles/parts.css'
import './styles/screen.css'
import './my-parts/my-parts.css'
import './styles/print.css'

export default {
  Layout,
  NotFound: Missing,
  enhanceApp: ({ app }) => {
    // Tables of Markdown stand in one, see the configuration.
    app.component('ScrollBox', ScrollBox)
  },
} satisfies Theme
