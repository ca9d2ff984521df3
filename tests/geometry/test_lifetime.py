import gc
import weakref

from methodsheets.geometry import Axis, SolidKernel, mass_properties


def test_a_job_that_is_dropped_takes_its_table_and_meshes_with_it():
    kernel = SolidKernel()
    bar = kernel.cylinder(10, 0, 30, "stock")
    part = bar - kernel.cylinder(3, -1, 31, "bore")
    mass_properties(part)
    watched = [weakref.ref(o) for o in (kernel, kernel.table, bar, part)]
    assert len(kernel.table) == 2
    del kernel, bar, part
    gc.collect()
    assert [w() for w in watched] == [None] * 4


def test_a_solid_keeps_its_table_though_the_kernel_is_gone():
    part = SolidKernel().cylinder(10, 0, 30, "stock")
    gc.collect()
    assert {s.operation for s in part.mesh().surfaces} == {"stock"}


def test_jobs_do_not_see_each_other():
    one, two = SolidKernel(), SolidKernel()
    one.cylinder(10, 0, 30, "stock")
    assert len(two.table) == 0
    two.cylinder(5, 0, 10, "pin", Axis.upright(3, 0))
    assert (len(one.table), len(two.table)) == (1, 1)
