//! The pictures of the command, drawn as the page draws them.

use drawing::{
    MapOptions, MountOptions, RearOptions, SideOptions, mount_view, rear_view, side_view,
    wheelhouse_map,
};
use geometry::mount::Mounting;
use geometry::sheet::{Ring, SheetMap};
use geometry::side::Sides;

use crate::arguments::{Picture, View};

/// The picture as an SVG file, or in lines what is wrong with the car.
pub(crate) fn drawn(picture: &Picture) -> Result<String, Vec<String>> {
    let (model, check) = crate::checked(&picture.file)?;
    let scene = match picture.view {
        View::Rear => {
            let target = model.car.targets.travel;
            let room = Sides::each(|side| model.envelope_section(side, target, picture.angle));
            let options = RearOptions {
                angle: picture.angle,
                width: picture.width,
                envelope: Some(&room),
                ..RearOptions::default()
            };
            rear_view(&model, &check, &options)
        }
        View::Side => {
            let ring = Ring::whole(&model, picture.side);
            let options = SideOptions {
                angle: picture.angle,
                width: picture.width,
                ring: Some(&ring),
                ..SideOptions::of(picture.side)
            };
            side_view(&model, &check, &options)
        }
        View::Map => {
            let map = SheetMap::whole(&model, picture.side);
            let options = MapOptions {
                angle: Some(picture.angle),
                width: picture.width,
                ..MapOptions::default()
            };
            wheelhouse_map(&map, &model, &options)
        }
        View::Mount => {
            let mounting = Mounting::whole(&model, picture.side);
            let options = MountOptions {
                width: picture.width,
                ..MountOptions::default()
            };
            mount_view(&model, &mounting, picture.share, &options)
        }
    };
    Ok(scene.file())
}
