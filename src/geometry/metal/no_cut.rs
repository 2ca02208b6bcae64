//! Where the sheet is not to be cut, in distances that are marked on it.

use crate::model::Model;
use crate::side::Side;

/// A no-cut zone at one angle. Distances run along the factory's sheet, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ZoneRow {
    /// The zone, by its place in the car's list.
    pub zone: usize,
    /// From straight up, radians, positive toward the front.
    pub angle: f64,
    /// From where to where, from the seam, positive inboard.
    pub from_seam: [f64; 2],
    /// The same from the lip's edge.
    pub from_lip: [f64; 2],
}

/// The zones of one side: each at its rear edge, at every station between, and at its front edge, as far as there is
/// sheet.
#[must_use]
pub fn zone_rows(model: &Model, side: Side) -> Vec<ZoneRow> {
    let table = model.stock_wheelhouses.get(side);
    let zones = model.car.no_cut.iter().enumerate();
    let rows = zones
        .filter(|(_, zone)| zone.side == side)
        .map(|(index, zone)| {
            let [rear, front] = zone.angles;
            let stations = table.stations.iter().map(|station| station.angle);
            let angles = [rear]
                .into_iter()
                .chain(stations.filter(move |&angle| rear < angle && angle < front))
                .chain([front]);
            angles.filter_map(move |angle| {
                let lip_to_seam = table.at(angle)?.lip_to_seam();
                Some(ZoneRow {
                    zone: index,
                    angle,
                    from_seam: zone.along,
                    from_lip: zone.along.map(|along| along + lip_to_seam),
                })
            })
        });
    rows.flatten().collect()
}
