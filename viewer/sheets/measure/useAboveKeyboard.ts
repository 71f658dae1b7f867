import type { RefObject } from 'preact';
import { useEffect } from 'preact/hooks';

/** Keeps `--keyboard` of an element at the height that the keyboard of a phone covers, and `--left` and `--seen` at the strip
 *  of the page in sight, so that what is pinned to the bottom stands above the keyboard and is seen whole. */
export function useAboveKeyboard(element: RefObject<HTMLElement | null>, typing: boolean): void {
  useEffect(() => {
    const view = window.visualViewport;
    if (!view || !typing) return;
    const lift = () => {
      const covered = Math.max(0, window.innerHeight - view.height - view.offsetTop);
      const style = element.current?.style;
      style?.setProperty('--keyboard', `${covered}px`);
      style?.setProperty('--left', `${view.offsetLeft}px`);
      style?.setProperty('--seen', `${view.width}px`);
    };
    lift();
    view.addEventListener('resize', lift);
    view.addEventListener('scroll', lift);
    return () => {
      view.removeEventListener('resize', lift);
      view.removeEventListener('scroll', lift);
    };
  }, [element, typing]);
}
