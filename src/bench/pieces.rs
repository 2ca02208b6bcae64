//! What both plainer ways look at: the metal as the model has it.

use geometry::gap::Face;
use geometry::model::{Model, Solids};
use geometry::side::Side;
use geometry::space::Vec3;

/// One surface of one side, with the solids that may come near it.
pub struct Piece<'a> {
    /// The side's tire and wheel, widened by the axle's sideways give.
    pub solids: &'a Solids,
    /// The surface's faces.
    pub faces: Vec<Face>,
}

/// Every surface of both sides.
pub fn pieces(model: &Model) -> Vec<Piece<'_>> {
    let of_side = |side: Side| {
        let solids = model.given.get(side);
        let surfaces = model.faces(side).into_iter();
        surfaces.map(move |surface| Piece {
            solids,
            faces: surface.faces,
        })
    };
    Side::BOTH.into_iter().flat_map(of_side).collect()
}

/// The most by which a point of a face stands away from its middle, mm.
pub fn reach(face: &Face) -> f64 {
    let middle = face.middle();
    let away = |&corner: &Vec3| (corner - middle).length();
    face.corners().iter().map(away).fold(0.0, f64::max) + face.bend
}
