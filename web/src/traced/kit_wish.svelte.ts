// A kit that was asked for together with something else, before its pane could be pressed.

class KitWish {
  /** The design whose kit is to be made and handed out as soon as may be. */
  of = $state<string | null>(null);

  /** Whether it is this design's; the wish is spent then. */
  taken(id: string): boolean {
    if (this.of !== id) return false;
    this.of = null;
    return true;
  }
}

export const kitWish = new KitWish();
