//! What a shape is; the style sheet decides what it looks like.

macro_rules! roles {
    ($( $(#[$doc:meta])* $name:ident = $class:literal, )*) => {
        /// What a shape is. The style sheet maps each role's class to weight, dash and color.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        pub enum Role {
            $( $(#[$doc])* $name, )*
        }

        impl Role {
            /// Every role.
            pub const ALL: &[Role] = &[ $( Role::$name, )* ];

            /// The class that the style sheet knows the role by.
            #[must_use]
            pub const fn class(self) -> &'static str {
                match self {
                    $( Role::$name => $class, )*
                }
            }
        }
    };
}

roles! {
    /// Metal cut by the section plane.
    Cut = "cut",
    /// The area of cut metal.
    Section = "section",
    /// Hatching of cut metal.
    Hatch = "hatch",
    /// Where a part that goes on is broken off in the picture.
    Break = "break",
    /// The wheelhouse as the factory made it.
    Stock = "stock",
    /// The tub where it was moved to.
    Moved = "moved",
    /// The new metal between the old seam and the new one.
    Fill = "fill",
    /// A part bolted near the tire.
    Obstacle = "obstacle",
    /// The tire where the section plane cuts it.
    Tire = "tire",
    /// The tire between its two cuts, seen from behind.
    TireSide = "tire-side",
    /// The wheel.
    Wheel = "wheel",
    /// The axle's tube.
    Axle = "axle",
    /// The axle's flange.
    Flange = "flange",
    /// Everything that the tire covers through travel.
    Envelope = "envelope",
    /// The same, grown by the target gap.
    Margin = "margin",
    /// Hatching where tire and metal overlap.
    Overlap = "overlap",
    /// Hatching where they overlap somewhere in travel.
    TravelOverlap = "travel-overlap",
    /// Ticks on the back of metal whose gap is below its target.
    TightTicks = "tight-ticks",
    /// The ground.
    Ground = "ground",
    /// An edge behind what is drawn.
    Hidden = "hidden-edge",
    /// Where a moving part is at the end of its travel.
    Swept = "swept",
    /// The trace of another drawing's section.
    SectionLine = "section-line",
    /// A sector of the ring round the wheel.
    Sector = "sector",
    /// The spot where a gap is least.
    Spot = "spot",
    /// The circle round a letter that stands for a row of the key.
    Balloon = "balloon",
    /// Where one surface ends and the next begins.
    Border = "border",
    /// A line of equal gap.
    Contour = "contour",
    /// Sheet that may not be cut.
    NoCut = "no-cut",
    /// A plane of symmetry.
    CenterLine = "center-line",
    /// Dimension, extension and leader lines.
    Dimension = "dimension",
    /// Arrowheads.
    Arrow = "arrow",
    /// The line that a gap's lettering stands on.
    Underline = "underline",
    /// Lettering that carries a value.
    Text = "text",
    /// Lettering that explains.
    Note = "note",
    /// The heading of a sheet, or of what stands under it.
    SheetHeading = "sheet-heading",
    /// The base line of a check ruler.
    Ruler = "ruler",
    /// A chart's axes.
    Axis = "axis",
    /// A chart's grid.
    Grid = "grid",
    /// The line of no gap.
    Zero = "zero",
    /// The line of the gap asked for.
    Target = "target",
    /// Where the car stands now.
    Now = "now",
    /// The first curve.
    Curve0 = "curve-0",
    /// The second curve.
    Curve1 = "curve-1",
    /// The third curve.
    Curve2 = "curve-2",
    /// The fourth curve.
    Curve3 = "curve-3",
    /// The fifth curve.
    Curve4 = "curve-4",
    /// The sixth curve.
    Curve5 = "curve-5",
    /// Every further curve.
    Curve6 = "curve-6",
}

impl Role {
    /// The role of a chart's curve, counted from zero; all beyond the sixth share the last.
    #[must_use]
    pub fn curve(index: usize) -> Self {
        const CURVES: [Role; 7] = [
            Role::Curve0,
            Role::Curve1,
            Role::Curve2,
            Role::Curve3,
            Role::Curve4,
            Role::Curve5,
            Role::Curve6,
        ];
        CURVES[index.min(CURVES.len() - 1)]
    }

    /// Whether it is the edge of metal that a tire can meet.
    pub(crate) fn bounds_metal(self) -> bool {
        matches!(
            self,
            Self::Cut | Self::Moved | Self::Fill | Self::Obstacle | Self::Hidden
        )
    }
}
