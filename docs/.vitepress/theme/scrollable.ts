import type { Directive } from 'vue'

const seen = new WeakMap<Element, ResizeObserver>()

/** Lets the keyboard reach what scrolls sideways, and only while it does. */
export const vScrollable: Directive<HTMLElement> = {
  mounted(element) {
    const look = () => {
      if (element.scrollWidth > element.clientWidth) element.tabIndex = 0
      else element.removeAttribute('tabindex')
    }
    const observer = new ResizeObserver(look)
    observer.observe(element)
    seen.set(element, observer)
    look()
  },
  unmounted: (element) => seen.get(element)?.disconnect(),
  getSSRProps: () => ({}),
}
