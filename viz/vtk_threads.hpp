#pragma once

#include <functional>

namespace drumlin::viz {

/// Does something while VTK keeps to the calling thread. It looks for the range of every array it
/// writes on all cores; for arrays of a section its threads cost more than they save.
void on_one_thread(const std::function<void()>& task);

}  // namespace drumlin::viz
